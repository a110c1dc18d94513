package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed radio_id_reserved.md
var radioIDReservedDoc string

// RadioIDReserved reports a person, or a private contact, with a number that no radio
// may have.
var RadioIDReserved = &review.Rule{
	ID:       "radio-id-reserved",
	Severity: review.Block, // a radio with it would answer for a part of the network
	Edition:  2026,
	Doc:      radioIDReservedDoc,
	Run:      radioIDReserved,
}

func radioIDReserved(p *review.Pass) {
	report := func(f review.Finding) {
		f.Why = "no radio may have it: what the network does with a call from it or to it is not defined"
		f.Fix = "write the radio ID as it was assigned; radios lie from 1 to 16776415"
		f.Source = addressTable
		p.Report(f)
	}
	for _, o := range withID(p.Plan, func(id signal.RadioID) bool { return keptBlock(id) != "" }) {
		report(oddID(o, "lies in the block "+keptBlock(o.ID.V)))
	}
	for _, g := range calledBy(p.Plan) {
		if block := keptBlock(signal.RadioID(g.ID.V)); g.call == "private" && block != "" {
			report(g.oddNumber("lies in the block " + block))
		}
	}
}

// keptBlock names the block of unit addresses that a number lies in, if the standard
// keeps it from radios.
func keptBlock(id signal.RadioID) string {
	switch id.Range() {
	case signal.RangeReserved:
		return "that the standard reserves"
	case signal.RangeGateway:
		return "of the system's gateways"
	}
	return ""
}
