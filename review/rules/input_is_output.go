package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed input_is_output.md
var inputIsOutputDoc string

// InputIsOutput reports a repeater that would hear on the frequency it sends on.
var InputIsOutput = &review.Rule{
	ID:       "input-is-output",
	Severity: review.Block, // members would transmit over the repeater
	Edition:  2026,
	Doc:      inputIsOutputDoc,
	Run:      inputIsOutput,
}

func inputIsOutput(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		if !r.Output.IsSet() || !r.Input.IsSet() || r.Input.V != r.Output.V {
			continue
		}
		p.Report(review.Finding{
			At: r.Input.At, About: []plan.Thing{r.Thing()}, Values: []string{r.Input.V.String()},
			What:   fmt.Sprintf("the input of %s is its output, %s MHz", r.Thing(), r.Output.V),
			Why:    "members would transmit on what they should listen to, over whoever is speaking",
			Fix:    "write the coordinated input; for a station without a repeater write a channel with simplex:",
			Source: "47 CFR 97.3(a), as remembered: a repeater retransmits on a different channel; common practice elsewhere",
			Also:   []review.Related{{At: r.Output.At, Text: "the output"}},
		})
	}
}
