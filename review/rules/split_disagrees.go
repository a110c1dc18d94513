package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed split_disagrees.md
var splitDisagreesDoc string

// SplitDisagrees reports a repeater whose split leads to another input than it states.
var SplitDisagrees = &review.Rule{
	ID:       "split-disagrees",
	Severity: review.Block, // one of the two is wrong, and members would send on either
	Edition:  2026,
	Doc:      splitDisagreesDoc,
	Run:      splitDisagrees,
}

func splitDisagrees(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		if !r.Output.IsSet() || !r.Split.IsSet() || !r.Input.IsSet() {
			continue
		}
		bySplit := r.Output.V + signal.Hertz(r.Split.V)
		if bySplit == r.Input.V {
			continue
		}
		p.Report(review.Finding{
			At: r.Split.At, About: []plan.Thing{r.Thing()}, Values: []string{r.Output.V.String(), r.Split.V.String(), r.Input.V.String()},
			What:   fmt.Sprintf("the split %s of %s leads to %s MHz, and its input says %s MHz", r.Split.V, r.Thing(), bySplit, r.Input.V),
			Why:    "one of the two is wrong, and on the wrong one the repeater does not listen and somebody else may",
			Fix:    "look up the coordinated input, and keep the one of the two that says it",
			Source: "the plan's own text: input is output plus split",
			Also:   []review.Related{{At: r.Input.At, Text: "the input"}, {At: r.Output.At, Text: "the output"}},
		})
	}
}
