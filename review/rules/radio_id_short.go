package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed radio_id_short.md
var radioIDShortDoc string

// RadioIDShort reports a person with too short a radio ID.
var RadioIDShort = &review.Rule{
	ID:       "radio-id-short",
	Severity: review.Warn, // it fits the air, and no registry assigns it
	Edition:  2026,
	Doc:      radioIDShortDoc,
	Run:      radioIDShort,
}

func radioIDShort(p *review.Pass) {
	for _, o := range withID(p.Plan, func(id signal.RadioID) bool { return id < 100_000 }) {
		f := oddID(o, "has fewer than six digits")
		f.Why = "a person's has seven by the convention of the registries, so a digit is missing or it is the number of a talkgroup"
		f.Fix = "write the radio ID as it was assigned"
		f.Source = idConvention
		p.Report(f)
	}
}

// idConvention is what the rules of the form of radio IDs rest on.
const idConvention = "the convention of the amateur DMR registries, read on a national network's page: a person has seven digits and a repeater six"
