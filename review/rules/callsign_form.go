package rules

import (
	_ "embed"
	"errors"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed callsign_form.md
var callsignFormDoc string

// CallsignForm reports a callsign of a form that the Radio Regulations do not know.
var CallsignForm = &review.Rule{
	ID:       "callsign-form",
	Severity: review.Warn, // some countries do assign such calls
	Edition:  2026,
	Doc:      callsignFormDoc,
	Run:      callsignForm,
}

func callsignForm(p *review.Pass) {
	look := func(r plan.Record, call plan.Value[signal.Callsign], who string) {
		var odd *signal.Error
		if !call.IsSet() || !errors.As(call.V.ITUForm(), &odd) {
			return
		}
		p.Report(review.Finding{
			At: call.At, About: []plan.Thing{r.Thing()}, Values: []string{call.V.String()},
			What:   fmt.Sprintf("the callsign %s of %s %s", call.V, who, odd.Problem),
			Why:    "a station must identify with the callsign that it was assigned, and a slip of the pen is easily made",
			Fix:    odd.Instead,
			Source: "ITU Radio Regulations 19.50, 19.68, 19.68A",
		})
	}
	for _, r := range p.Plan.Repeaters.All() {
		look(r, r.Callsign, r.Thing().String())
	}
	for _, o := range p.Plan.Operators.All() {
		look(o, o.Callsign, "operator "+o.ID.V.String())
	}
}
