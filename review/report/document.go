package report

import (
	"path"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

// version is that of the JSON forms: see the package comment.
const version = 1

// A Document is what a report is about. Old is nil where one plan is reported,
// Comparison where nothing was compared, Verdict where nothing was judged.
type Document struct {
	Old, New   *Origin
	Comparison *plandiff.Comparison
	Verdict    *review.Verdict
	Expansion  *plan.Expansion // of the new plan
	Folder     string          // the way from the reader to the root of the plan, slash-separated
	Unfold     bool            // list every effect
}

// An Origin tells where a plan came from.
type Origin struct {
	Name    string `json:"name"`              // as the person wrote it, or "work tree"
	Hash    string `json:"hash,omitempty"`    // of the commit, if it is one
	Subject string `json:"subject,omitempty"` // of the commit
	Note    string `json:"note,omitempty"`    // "where main and feature parted"
}

// caution stands at the end of every verdict.
const caution = "The license holder answers for every transmission; the frequency coordinator and local law have the last word."

// spans names an origin for people.
func (o *Origin) spans() Line {
	line := Line{code(o.Name)}
	if o.Hash != "" && o.short() != o.Name {
		line = append(line, text(" ("), code(o.short()), text(")"))
	}
	if o.Note != "" {
		line = append(line, text(", %s", o.Note))
	}
	return line
}

func (o *Origin) short() string { return o.Hash[:min(len(o.Hash), 10)] }

// title heads a report: the name of the plan and where it came from.
func (d *Document) title(p *Page, what string) {
	line := Line{text("%s", what)}
	if name := d.Expansion.Plan.Header.Title.Or(""); name != "" {
		line = append(line, text(" of "), strong(name))
	}
	p.heading(1, line...)
	switch {
	case d.Old != nil && d.New != nil:
		line = append(Line{text("from ")}, d.Old.spans()...)
		line = append(line, text(" to "))
		p.paragraph(append(line, d.New.spans()...)...)
	case d.New != nil:
		p.paragraph(d.New.spans()...)
	}
}

// place gives a place as the reader can open it.
func (d *Document) place(at plan.Place) string {
	if d.Folder != "" && d.Folder != "." && !at.IsZero() {
		at.File = path.Join(d.Folder, at.File)
	}
	return at.String()
}
