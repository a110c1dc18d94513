package report

import (
	"io"
	"maps"
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/mend"
)

// Mended reports what was mended in a plan and what was not, what that changes for
// members, and what is found in the plan as it is now. The document is that of the
// plan as it is now, with the comparison from before.
func Mended(d *Document, r *mend.Result) *Page {
	p := new(Page)
	head := *d
	head.Old = nil // it is the same place
	head.title(p, "Mending")
	for _, done := range r.Done {
		f := done.Finding
		p.item(0, code(d.place(f.At)), text(": "), Span{"mended", Good}, text(": %s ", f.What), faint("[%s]", f.Rule))
		mendLines(p, f)
		for _, came := range done.Brought {
			p.detail(0, "brings", text("%s, told below: %s ", came.Severity, came.What), faint("[%s]", came.Rule))
		}
	}
	for _, left := range r.Left {
		p.item(0, code(d.place(left.Finding.At)), text(": "), Span{"not mended", Warns}, text(": %s ", left.Finding.What), faint("[%s]", left.Finding.Rule))
		mendLines(p, left.Finding)
		p.detail(0, "why", text("%s", left.Why))
	}
	if len(r.Done) == 0 {
		p.paragraph(text("Nothing was written: there is no fault that a machine can mend."))
	} else {
		p.heading(2, text("What changes"))
		d.changes(p)
		p.paragraph(text("%s: a machine does not know the hills.", d.lookFirst()))
	}
	p.heading(2, text("What is found now"))
	d.findings(p, d.Verdict.Findings)
	d.accepted(p)
	d.verdict(p)
	return p
}

// mendLines says the values of a mend. What goes from a list or comes to one is said
// among what changes.
func mendLines(p *Page, f review.Finding) {
	for _, c := range f.Mend {
		for i := range c.Edits {
			if e := &c.Edits[i]; e.Form == plan.Scalar {
				p.detail(0, "", Line{text("%s: ", fieldWords(e.Field))}.and(value(e)...)...)
			}
		}
	}
}

// MendForm is the JSON form of Mended: that of a check of the plan as it is now, with
// what was mended.
type MendForm struct {
	CheckJSON
	Files  []string     `json:"files"` // those that were written
	Mended []MendedForm `json:"mended"`
	Left   []LeftForm   `json:"left"`
}

// MendedForm is a finding that was mended, and the milder ones that came with its mend.
type MendedForm struct {
	FindingJSON
	Brought []FindingJSON `json:"brought"`
}

// LeftForm is a finding with a mend that was not carried out.
type LeftForm struct {
	FindingJSON
	Obstacle string `json:"obstacle"`
}

// MendedJSON writes Mended for programs.
func MendedJSON(w io.Writer, d *Document, r *mend.Result) error {
	form := MendForm{CheckJSON: d.checkJSON(), Files: orEmpty(slices.Sorted(maps.Keys(r.Files))), Mended: []MendedForm{}, Left: []LeftForm{}}
	form.Passband = "mend"
	for _, done := range r.Done {
		form.Mended = append(form.Mended, MendedForm{findingJSON(done.Finding), findingsJSON(done.Brought)})
	}
	for _, left := range r.Left {
		form.Left = append(form.Left, LeftForm{findingJSON(left.Finding), left.Why})
	}
	return WriteJSON(w, form)
}

// OfMended makes the document of a plan that was mended.
func OfMended(at *Origin, r *mend.Result) *Document {
	return &Document{Old: at, New: at, Comparison: plandiff.Compare(r.Before, r.After), Verdict: r.Verdict, Expansion: r.After}
}
