package post

import (
	"fmt"
	"strings"

	"passband.example/review"
)

// Lines says what was done, and what was not and why, one thing a line.
func (o *Outcome) Lines() []string {
	var lines []string
	if o.Skipped != "" {
		lines = append(lines, "no comments: "+o.Skipped)
	}
	var parts []string
	for _, c := range []struct {
		n    int
		what string
	}{{o.Posted, "posted"}, {o.Amended, "changed"}, {o.Resolved, "resolved or opened"}, {o.Removed, "removed"}} {
		if c.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", c.n, c.what))
		}
	}
	switch {
	case len(parts) > 0:
		lines = append(lines, "comments on lines: "+strings.Join(parts, ", "))
	case o.Skipped == "" && len(o.Held) == 0:
		lines = append(lines, "the comments on lines stand as they should")
	}
	if o.Summary != "" {
		lines = append(lines, "the summary was "+o.Summary)
	}
	if o.Moved != "" {
		lines = append(lines, o.Moved)
	}
	return append(lines, o.Held...)
}

// Outputs gives the outputs of a step, as a runner reads them: words and numbers
// only, so that nothing has to be quoted.
func (p *Proposal) Outputs() string {
	v := p.Document.Verdict
	verdict := "clear"
	if v.Blocks() {
		verdict = "blocked"
	}
	return fmt.Sprintf("verdict=%s\nblock=%d\nwarn=%d\nnote=%d\n", verdict,
		v.Count(review.Block, review.New), v.Count(review.Warn, review.New), v.Count(review.Note, review.New))
}
