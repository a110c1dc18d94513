package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed radio_id_custom.md
var radioIDCustomDoc string

// RadioIDCustom reports a person, or a private contact, with a number of the block that
// every system uses as it likes.
var RadioIDCustom = &review.Rule{
	ID:       "radio-id-custom",
	Severity: review.Warn, // the system may use it so
	Edition:  2026,
	Doc:      radioIDCustomDoc,
	Run:      radioIDCustom,
}

func radioIDCustom(p *review.Pass) {
	const what = "lies in the block that each system uses as it likes"
	report := func(f review.Finding) {
		f.Why = "what a radio with it does depends on the network, and no registry assigns it"
		f.Fix = "ask who runs the network whether it is meant; else write the radio ID as it was assigned"
		f.Source = addressTable
		p.Report(f)
	}
	for _, o := range withID(p.Plan, func(id signal.RadioID) bool { return id.Range() == signal.RangeCustom }) {
		report(oddID(o, what))
	}
	for _, g := range calledBy(p.Plan) {
		if g.call == "private" && signal.RadioID(g.ID.V).Range() == signal.RangeCustom {
			report(g.oddNumber(what))
		}
	}
}
