package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed radio_holds_nothing.md
var radioHoldsNothingDoc string

// RadioHoldsNothing reports a class of radio that can use no channel of its zones.
var RadioHoldsNothing = &review.Rule{
	ID:       "radio-holds-nothing",
	Severity: review.Warn, // its bands or modes are most likely mistyped
	Edition:  2026,
	Doc:      radioHoldsNothingDoc,
	Run:      radioHoldsNothing,
}

func radioHoldsNothing(p *review.Pass) {
	for _, fit := range fitsOf(p.Expansion) {
		if len(fit.Zones) > 0 || !carriesAny(p.Expansion, fit) {
			continue
		}
		f := review.Finding{
			At: fit.Radio.Place(), About: []plan.Thing{fit.Radio.Thing()},
			What:   fmt.Sprintf("%s can use no channel of its zones", fit.Radio.Thing()),
			Why:    "members who own one would get an empty radio",
			Fix:    "look at its bands and modes, or give it zones that it can use",
			Source: "the bands and modes that the plan states for the radio",
		}
		for i, l := range fit.LeftOut {
			if i == 3 {
				f.Also = append(f.Also, review.Related{At: fit.Radio.Place(), Text: fmt.Sprintf("and %d more of its channels", len(fit.LeftOut)-i)})
				break
			}
			f.Also = append(f.Also, review.Related{At: l.Channel.At, Text: l.Channel.Thing().String() + ": " + l.Why})
		}
		p.Report(f)
	}
}
