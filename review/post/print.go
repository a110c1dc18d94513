package post

import (
	"fmt"
	"strings"

	"passband.example/review/report"
)

// Form is the JSON form of a Posting: exactly what would be posted where nothing
// stands yet.
type Form struct {
	Passband string      `json:"passband"` // "posting"
	Version  int         `json:"version"`
	Commit   string      `json:"commit"`
	Blocks   bool        `json:"blocks"`
	Status   Status      `json:"status"`
	Summary  string      `json:"summary"`
	Comments []DraftForm `json:"comments"`
}

// DraftForm is a comment on a line.
type DraftForm struct {
	ID   string `json:"id"`
	Path string `json:"path"`
	Side string `json:"side"`           // new or old
	From int32  `json:"from,omitempty"` // the first of several lines
	Line int32  `json:"line"`
	Body string `json:"body"`
}

// Form gives what would be posted where nothing stands yet.
func (p *Posting) Form() Form {
	work := Reconcile(nil, p.Goal)
	f := Form{Passband: "posting", Version: 1, Commit: p.Goal.Head, Blocks: p.Status.Blocks, Status: p.Status, Comments: []DraftForm{}}
	f.Summary = p.signedSummary(work.OnLine, "")
	for _, d := range work.Post {
		side := map[Side]string{NewSide: "new", OldSide: "old"}[d.Spot.Side]
		f.Comments = append(f.Comments, DraftForm{d.Key, d.Spot.Path, side, d.Spot.From, d.Spot.Line, d.Body})
	}
	return f
}

// Text gives the same for people.
func (f Form) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "The summary of the pull request:\n\n%s\n", f.Summary)
	for _, c := range f.Comments {
		where := fmt.Sprintf("line %d", c.Line)
		if c.From > 0 {
			where = fmt.Sprintf("lines %d to %d", c.From, c.Line)
		}
		if c.Side == "old" {
			where += " as it was"
		}
		fmt.Fprintf(&b, "A comment on %s %s:\n\n%s\n", report.Visible(c.Path), where, c.Body)
	}
	fmt.Fprintf(&b, "The status %s beside the commit %.10s: %s\n", report.Visible(f.Status.Context), f.Commit, f.Status.Text)
	return b.String()
}
