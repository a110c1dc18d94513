package post

import (
	"path"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
)

// A Spot is where a comment stands: a line of one side of a file, or with From the
// lines of the new file from there on. The zero Spot is none that the diff has.
type Spot struct {
	Path string `json:"path,omitempty"`
	Side Side   `json:"-"`
	From int32  `json:"from,omitempty"` // 0 for one line
	Line int32  `json:"line,omitempty"`
}

// IsZero reports whether there is no such line.
func (s Spot) IsZero() bool { return s.Path == "" }

// covers reports whether a line is among those of the spot.
func (s Spot) covers(one Spot) bool {
	return s.Path == one.Path && s.Side == one.Side && (one.Line == s.Line || s.From > 0 && s.From <= one.Line && one.Line <= s.Line)
}

// Spot finds where the diff has a line for a finding: the one that caused it, then
// the other lines it is about, then what the change did to what it is about.
func (d Diff) Spot(doc *report.Document, f review.Finding) Spot {
	at := []plan.Place{f.At}
	for _, also := range f.Also {
		at = append(at, also.At)
	}
	var was []plan.Place
	for _, t := range f.About {
		now, before := edited(doc.Comparison, t)
		at, was = append(at, now...), append(was, before...)
	}
	for _, p := range at {
		if s := (Spot{Path: path.Join(doc.New.Folder, p.File), Line: p.Line}); d.Has(s.Path, s.Side, s.Line) {
			return s
		}
	}
	for _, p := range was {
		if s := (Spot{Path: path.Join(doc.New.Folder, p.File), Side: OldSide, Line: p.Line}); d.Has(s.Path, s.Side, s.Line) {
			return s
		}
	}
	return Spot{}
}

// edited gives the lines of what a change did to a thing, now and before.
func edited(c *plandiff.Comparison, t plan.Thing) (now, before []plan.Place) {
	if c == nil {
		return nil, nil
	}
	for i := range c.Causes {
		if c.Causes[i].Thing != t {
			continue
		}
		for _, change := range c.Causes[i].Changes {
			for _, e := range change.Edits {
				if !e.NewAt.IsZero() {
					now = append(now, e.NewAt)
				} else if !e.OldAt.IsZero() {
					before = append(before, e.OldAt)
				}
			}
			now, before = append(now, change.At), append(before, change.WasAt)
		}
	}
	return now, before
}
