package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed radio_id_six_digits.md
var radioIDSixDigitsDoc string

// RadioIDSixDigits reports a person with the radio ID of a repeater.
var RadioIDSixDigits = &review.Rule{
	ID:       "radio-id-six-digits",
	Severity: review.Note, // a club may list its repeaters among the operators
	Edition:  2026,
	Doc:      radioIDSixDigitsDoc,
	Run:      radioIDSixDigits,
}

func radioIDSixDigits(p *review.Pass) {
	for _, o := range withID(p.Plan, func(id signal.RadioID) bool { return id >= 100_000 && id <= 999_999 }) {
		f := oddID(o, "has six digits, as a repeater's has")
		f.Why = "a person's has seven by the convention of the registries, so a digit may be missing"
		f.Fix = "write the radio ID as it was assigned; nothing is to do if it is a repeater's"
		f.Source = idConvention
		p.Report(f)
	}
}
