package rules

import (
	"cmp"
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed output_missing.md
var outputMissingDoc string

// OutputMissing reports a repeater that does not say what members hear.
var OutputMissing = &review.Rule{
	ID:       "output-missing",
	Severity: review.Block, // members could send and would hear nothing
	Edition:  2026,
	Doc:      outputMissingDoc,
	Run:      outputMissing,
}

func outputMissing(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		if r.Output.Written() || r.Partly() {
			continue
		}
		has := "no output"
		if name := cmp.Or(written(r.Input, "an input"), written(r.Split, "a split")); name != "" {
			has = name + " and " + has
		}
		p.Report(review.Finding{
			At: r.InputPlace(), About: []plan.Thing{r.Thing()},
			What:   fmt.Sprintf("%s has %s", r.Thing(), has),
			Why:    "the output is what members listen on; without it they would transmit blindly, or the channels cannot be made",
			Fix:    "write what members hear, in MHz: output: 444.325",
			Source: "the plan's own text",
		})
	}
}

// written gives the words where the value was written.
func written[T any](v plan.Value[T], words string) string {
	if v.Written() {
		return words
	}
	return ""
}
