package report

import (
	"path"

	"passband.example/plandiff"
	"passband.example/plandiff/history"
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
	Unfold     bool            // list every effect
	InGit      bool            // the new plan lies in a repository, which tells what was written

	placeless bool // do not say where in the files
	brief     bool // do not say what a change reaches
}

// An Origin tells where a plan came from.
type Origin struct {
	Name    string `json:"name"`              // as the person wrote it, or "work tree"
	Hash    string `json:"hash,omitempty"`    // of the commit, if it is one
	Subject string `json:"subject,omitempty"` // of the commit
	Note    string `json:"note,omitempty"`    // "where feature left main"

	// Folder leads to the root of the plan, with slashes: from where the reader
	// stands, or in a commit from the top of the repository. "" is right there.
	Folder string `json:"folder,omitempty"`
}

// Line names an origin for people.
func (o *Origin) Line() Line {
	line := Line{code(o.Name)}
	if o.Name == history.WorkTreeName {
		line = Line{text("the %s", o.Name)}
	}
	if o.Hash != "" && o.short() != o.Name {
		line = append(line, text(" ("), code(o.short()), text(")"))
	}
	if o.Note != "" {
		line = append(line, text(", %s", o.Note))
	}
	return line
}

func (o *Origin) preposition() string {
	if o.Hash != "" {
		return "at"
	}
	return "in"
}

func (o *Origin) short() string { return o.Hash[:min(len(o.Hash), 10)] }

// Place gives a place in this plan as the reader can open it.
func (o *Origin) Place(at plan.Place) string {
	if o != nil && o.Folder != "" && !at.IsZero() {
		at.File = path.Join(o.Folder, at.File)
	}
	return at.String()
}

// place gives a place in the plan that is reported, was one in the old plan.
func (d *Document) place(at plan.Place) string { return d.New.Place(at) }
func (d *Document) was(at plan.Place) string   { return d.Old.Place(at) }

// at says in passing where a change stands, wasAt where something stood.
func (d *Document) at(place plan.Place) Line {
	if d.placeless {
		return nil
	}
	return at(d.place(place))
}

func (d *Document) wasAt(place plan.Place) Line {
	if d.placeless {
		return nil
	}
	return wasAt(d.was(place))
}

// title heads a report: the name of the plan and where it came from.
func (d *Document) title(p *Page, what string) {
	line := Line{text("%s", what)}
	if name := d.Expansion.Plan.Header.Title.Or(""); name != "" {
		line = line.and(text(" of "), strong(name))
	}
	if d.Old == nil && d.New != nil {
		line = line.and(text(" %s ", d.New.preposition())).and(d.New.Line()...)
	}
	p.heading(1, line...)
	if d.Old == nil || d.New == nil {
		return
	}
	line = Line{text("From ")}.and(d.Old.Line()...)
	if d.Old.Note != "" {
		line = line.and(text(","))
	}
	p.paragraph(line.and(text(" to ")).and(d.New.Line()...).and(text("."))...)
}
