package rules

import (
	_ "embed"
	"errors"
	"fmt"
	"strings"

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
		f := review.Finding{
			At: call.At, About: []plan.Thing{r.Thing()}, Values: []string{call.V.String()},
			What:   fmt.Sprintf("the callsign %s of %s %s", call.V, who, odd.Problem),
			Why:    "a station must identify with the callsign that it was assigned, and a slip of the pen is easily made",
			Fix:    odd.Instead,
			Source: "ITU Radio Regulations 19.50, 19.68, 19.68A",
		}
		if right, ok := withZero(call.V); ok {
			f.Fix = fmt.Sprintf("did you mean %s, with %s?", right, zeroOrO(call.V, right))
			f.Mend = mend(r, "callsign", right.String())
		}
		p.Report(f)
	}
	for _, r := range p.Plan.Repeaters.All() {
		look(r, r.Callsign, r.Thing().String())
	}
	for _, o := range p.Plan.Operators.All() {
		look(o, o.Callsign, "operator "+o.ID.V.String())
	}
}

// withZero gives the callsign that is meant where a letter O stands for a zero, or a
// zero for the letter: the one spelling that has the form of a callsign of some
// country.
func withZero(call signal.Callsign) (signal.Callsign, bool) {
	var right []signal.Callsign
	for i, sign := range []byte(call) {
		other, ok := map[byte]string{'O': "0", '0': "O"}[sign]
		if !ok {
			continue
		}
		spelled := call[:i] + signal.Callsign(other) + call[i+1:]
		if _, known := spelled.Country(); known && spelled.ITUForm() == nil {
			right = append(right, spelled)
		}
	}
	if len(right) != 1 {
		return "", false
	}
	return right[0], true
}

func zeroOrO(call, right signal.Callsign) string {
	if strings.Count(right.String(), "0") > strings.Count(call.String(), "0") {
		return "a zero for the letter O"
	}
	return "the letter O for the zero"
}
