package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed color_code_15.md
var colorCode15Doc string

// ColorCode15 reports the color code that has a meaning of its own.
var ColorCode15 = &review.Rule{
	ID:       "color-code-15",
	Severity: review.Note, // it works, and behaves unlike the others
	Edition:  2026,
	Doc:      colorCode15Doc,
	Run:      colorCode15,
}

// allSite is the color code that means all sites in direct mode (ETSI TS 102 361-1
// clause 9.3.1, second-hand).
const allSite signal.ColorCode = 15

func colorCode15(p *review.Pass) {
	look := func(r plan.Record, code plan.Value[signal.ColorCode]) {
		if !code.IsSet() || code.V != allSite {
			return
		}
		p.Report(review.Finding{
			At: code.At, About: []plan.Thing{r.Thing()}, Values: []string{code.V.String()},
			What:   fmt.Sprintf("%s uses color code 15, which the standard sets apart", r.Thing()),
			Why:    "in direct mode it means all sites, so some radios open to it whatever code they have",
			Fix:    "use one of 0 to 14, unless all sites is what you mean",
			Source: "ETSI TS 102 361-1 clause 9.3.1 (second-hand)",
		})
	}
	for _, r := range p.Plan.Repeaters.All() {
		look(r, r.DMR.ColorCode)
	}
	for _, c := range p.Plan.Channels.All() {
		look(c, c.DMR.ColorCode)
	}
}
