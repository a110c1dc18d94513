package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed eight_digits.md
var eightDigitsDoc string

// EightDigits reports a number that is longer than the registries assign.
var EightDigits = &review.Rule{
	ID:       "eight-digits",
	Severity: review.Note, // it fits the air
	Edition:  2026,
	Doc:      eightDigitsDoc,
	Run:      eightDigits,
}

func eightDigits(p *review.Pass) {
	report := func(f review.Finding) {
		f.Why = "it fits the air, but the registries assign no such number, so a digit may be too many"
		f.Fix = "look it up again"
		f.Source = idConvention + "; it must fit 24 bits (ETSI TS 102 361-1, second-hand)"
		p.Report(f)
	}
	long := func(id signal.RadioID) bool { return id > 9_999_999 && id.Range() == signal.RangeUnit }
	for _, o := range withID(p.Plan, long) {
		report(oddID(o, "has eight digits"))
	}
	for _, g := range calledBy(p.Plan) {
		if g.call != "all" && long(signal.RadioID(g.ID.V)) {
			report(g.oddNumber("has eight digits"))
		}
	}
}
