package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed split_missing.md
var splitMissingDoc string

// SplitMissing reports a repeater that does not say what members send on.
var SplitMissing = &review.Rule{
	ID:       "split-missing",
	Severity: review.Block, // members would send nowhere, or on the output
	Edition:  2026,
	Doc:      splitMissingDoc,
	Run:      splitMissing,
}

func splitMissing(p *review.Pass) {
	l := lawOf(p)
	for _, r := range p.Plan.Repeaters.All() {
		if !r.Output.Written() || r.Split.Written() || r.Input.Written() || r.Partly() {
			continue
		}
		f := review.Finding{
			At: r.Output.At, About: []plan.Thing{r.Thing()},
			What:   fmt.Sprintf("%s has an output and neither split nor input", r.Thing()),
			Why:    "members would not reach it; programmed without a split they would transmit on its output, over whoever is speaking",
			Fix:    "write the split with its sign, such as split: -0.6, or input: and its frequency, as the coordination says",
			Source: "common practice, no source",
		}
		if usual := l.onlySplit(r); usual != nil {
			f.Fix = fmt.Sprintf("the usual split there is %s MHz: write split: %s, unless the coordination says another", usual.Split, usual.Split)
			f.Source = usual.Cite()
			f.Mend = mend(r, "split", usual.Split.String())
		}
		p.Report(f)
	}
}

// onlySplit gives the one split that is usual for the output of a repeater; nil
// where none is known, or several are, or it is from memory alone.
func (l *law) onlySplit(r *plan.Repeater) *license.SplitRow {
	if l == nil || !r.Output.IsSet() {
		return nil
	}
	var only *license.SplitRow
	for _, row := range l.tables.UsualSplits(r.Output.V) {
		switch {
		case row.Split == 0 || row.Confidence == license.Memory:
			return nil
		case only != nil && only.Split != row.Split:
			return nil
		}
		only = row
	}
	return only
}
