package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed all_call_number.md
var allCallNumberDoc string

// AllCallNumber reports a number that calls everyone where one group or one person is
// meant, and the other way about.
var AllCallNumber = &review.Rule{
	ID:       "all-call-number",
	Severity: review.Block, // a call would reach everyone, or not those it names
	Edition:  2026,
	Doc:      allCallNumberDoc,
	Run:      allCallNumber,
}

func allCallNumber(p *review.Pass) {
	report := func(f review.Finding, why, fix string) {
		f.Why, f.Fix, f.Source = why, fix, addressTable
		p.Report(f)
	}
	for _, o := range withID(p.Plan, func(id signal.RadioID) bool { return id.Range() == signal.RangeAllCall }) {
		report(oddID(o, "calls everyone and is nobody's own"),
			"a radio with it would answer to calls for all, and its own calls would seem to come from all",
			"write the radio ID as it was assigned")
	}
	for _, g := range calledBy(p.Plan) {
		everyone := g.ID.V.Range() == signal.RangeAllCall
		switch {
		case everyone && g.call == "private":
			report(g.oddNumber("calls everyone, and the contact is for a private call"),
				"the call would ring at every radio that hears it", "write the radio ID of the person, or call: all")
		case g.ID.V == signal.AllCall && g.call == "group":
			report(g.oddNumber("calls everyone, and the group is a talkgroup"),
				"whoever calls the group calls every radio that hears it", "write the number of the talkgroup, or call: all")
		case !everyone && g.call == "all":
			report(g.oddNumber("is not one that calls everyone, and the group says call: all"),
				"a radio sends an all call to its own number, so this one would not be called", "write id: 16777215, or leave call out if it is a talkgroup")
		}
	}
}
