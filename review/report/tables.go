package report

import (
	"io"
	"maps"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/tables"
)

// Exported reports the tables that were written for a class of radio, or for the whole
// plan where radio is "", and what they do not tell.
func Exported(d *Document, e *tables.Export, radio string) *Page {
	p := new(Page)
	d.title(p, "Tables")
	if radio != "" {
		p.paragraph(text("For the radio "), code(radio), text("."))
	}
	t := table{head: []string{"file", "rows"}, numbers: []bool{false, true}}
	for _, f := range e.Files {
		t.rows = append(t.rows, []Span{code(f.Name), text("%d", e.Rows[f.Name])})
	}
	p.table(t)
	leftOut(p, &plan.Fit{LeftOut: e.LeftOut})
	for _, notice := range e.Notices {
		p.item(0, text("%s", notice))
	}
	if len(e.Missing) > 0 {
		p.paragraph(text("In the plan and in none of these tables:"))
	}
	missing(p, e.Missing)
	p.paragraph(faint("%s", caution))
	return p
}

// missing lists the fields that no table shows, those of a kind together.
func missing(p *Page, all []tables.Missing) {
	for i := 0; i < len(all); {
		var fields []string
		kind := all[i].Kind
		for ; i < len(all) && all[i].Kind == kind; i++ {
			fields = append(fields, all[i].Field)
		}
		p.item(1, text("%ss: %s", kind, strings.Join(fields, ", ")))
	}
}

// ExportForm is the JSON form of Exported.
type ExportForm struct {
	Passband string           `json:"passband"`
	Version  int              `json:"version"`
	Plan     string           `json:"plan"`
	At       *Origin          `json:"at"`
	Radio    string           `json:"radio,omitempty"`
	Tables   []TableForm      `json:"tables"`
	LeftOut  []LeftOutForm    `json:"left_out"`
	Missing  []tables.Missing `json:"missing"`
	Notices  []string         `json:"notices"`
}

// TableForm is a table that was written or read.
type TableForm struct {
	File string `json:"file"`
	Rows int    `json:"rows"`
}

// ExportedJSON writes Exported for programs.
func ExportedJSON(w io.Writer, d *Document, e *tables.Export, radio string) error {
	form := ExportForm{
		Passband: "export", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New, Radio: radio,
		Tables: tableForms(e.Rows), LeftOut: []LeftOutForm{}, Missing: e.Missing, Notices: orEmpty(e.Notices),
	}
	for _, l := range e.LeftOut {
		form.LeftOut = append(form.LeftOut, LeftOutForm{l.Channel.Name, l.Why})
	}
	if form.Missing == nil {
		form.Missing = []tables.Missing{}
	}
	return WriteJSON(w, form)
}

func tableForms(rows map[string]int) []TableForm {
	forms := []TableForm{}
	for _, name := range slices.Sorted(maps.Keys(rows)) {
		forms = append(forms, TableForm{name, rows[name]})
	}
	return forms
}

// Imported reports what tables change in a plan, and what is found then. The document
// has the comparison and the verdict; or neither, where rows could not be read. written
// names the files that hold the changes now; none where nothing was written.
func Imported(d *Document, in *tables.Import, written []string) *Page {
	p := new(Page)
	d.title(p, "Import")
	for _, notice := range in.Notices {
		p.item(0, text("%s", notice))
	}
	if len(in.Problems) > 0 {
		refused(p, in.Problems)
		return p
	}
	p.heading(2, text("What changes"))
	d.changes(p)
	p.heading(2, text("What is found"))
	fresh, still := split(d.Verdict.Findings)
	d.findings(p, fresh)
	if len(still) > 0 {
		p.paragraph(text("%s stood before this change and %s not held against it.", count(len(still), "finding"), isAre(len(still))))
	}
	d.verdict(p)
	switch {
	case d.Comparison.Empty():
		p.paragraph(text("Nothing is to be written."))
	case len(written) == 0:
		p.paragraph(strong("Nothing is written yet."), text(" To write it, add "), code("--write"), text("."))
	default:
		line := Line{strong("Written: ")}
		for i, name := range written {
			if i > 0 {
				line = line.and(text(", "))
			}
			line = line.and(code(name))
		}
		p.paragraph(line.and(text(". %s.", d.lookFirst()))...)
	}
	return p
}

// lookFirst says what to do with a plan that was written into.
func (d *Document) lookFirst() string {
	if d.InGit {
		return "Look at it with git diff before you commit it"
	}
	return "Look at it before you pass it on"
}

// refused lists the rows that cannot be read.
func refused(p *Page, problems []tables.Problem) {
	p.heading(2, text("What cannot be read"))
	for _, b := range problems {
		p.item(0, text("%s: ", b.Where()), Span{b.What, Blocks})
		if b.Fix != "" {
			p.detail(0, "do", text("%s", b.Fix))
		}
	}
	p.paragraph(strong("Nothing is written: "), text("half a table would be loaded by somebody. Mend the rows and run it again."))
}

// ImportForm is the JSON form of Imported: a review of the change, where there is one,
// and how the tables were read.
type ImportForm struct {
	Passband string           `json:"passband"`
	Version  int              `json:"version"`
	Tables   []TableForm      `json:"tables"`
	Notices  []string         `json:"notices"`
	Problems []tables.Problem `json:"problems"`
	Written  []string         `json:"written"`
	Change   *DiffJSON        `json:"change,omitempty"`
}

// ImportedJSON writes Imported for programs.
func ImportedJSON(w io.Writer, d *Document, in *tables.Import, written []string) error {
	form := ImportForm{
		Passband: "import", Version: version, Tables: tableForms(in.Rows), Notices: orEmpty(in.Notices),
		Problems: in.Problems, Written: orEmpty(written),
	}
	if form.Problems == nil {
		form.Problems = []tables.Problem{}
	}
	if d.Comparison != nil {
		change := d.diffJSON()
		form.Change = &change
	}
	return WriteJSON(w, form)
}
