package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed group_id_reserved.md
var groupIDReservedDoc string

// GroupIDReserved reports a talkgroup with a number that the standard keeps for itself.
var GroupIDReserved = &review.Rule{
	ID:       "group-id-reserved",
	Severity: review.Block, // what a call to it does is not for a plan to say
	Edition:  2026,
	Doc:      groupIDReservedDoc,
	Run:      groupIDReserved,
}

func groupIDReserved(p *review.Pass) {
	for _, g := range calledBy(p.Plan) {
		if g.call != "group" {
			continue
		}
		what := ""
		switch g.ID.V.Range() {
		case signal.RangeReserved:
			what = "lies in the block that the standard reserves"
		case signal.RangeUnaddressed:
			what = "lies in the block of unaddressed groups"
		default:
			continue
		}
		f := g.oddNumber(what)
		f.Why = "it is no talkgroup: what radios and networks do with a call to it is not defined"
		f.Fix = "write the number of the talkgroup, which lies from 1 to 16776415"
		f.Source = addressTable
		p.Report(f)
	}
}
