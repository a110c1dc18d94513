package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
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
	for _, r := range p.Plan.Repeaters.All() {
		if !r.Output.Written() || r.Split.Written() || r.Input.Written() || r.Partly() {
			continue
		}
		p.Report(review.Finding{
			At: r.Output.At, About: []plan.Thing{r.Thing()},
			What:   fmt.Sprintf("%s has an output and neither split nor input", r.Thing()),
			Why:    "members would not reach it; programmed without a split they would transmit on its output, over whoever is speaking",
			Fix:    "write the split with its sign, such as split: -0.6, or input: and its frequency, as the coordination says",
			Source: "common practice, no source",
		})
	}
}
