package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed group_slot_odd.md
var groupSlotOddDoc string

// GroupSlotOdd reports a repeater that carries a talkgroup on another time slot than all
// others do.
var GroupSlotOdd = &review.Rule{
	ID:       "group-slot-odd",
	Severity: review.Warn, // all others agree, so it is most likely a slip
	Edition:  2026,
	Doc:      groupSlotOddDoc,
	Run:      groupSlotOdd,
}

func groupSlotOdd(p *review.Pass) {
	for _, s := range slotSplits(p) {
		if s.odd() {
			p.Report(s.finding(p))
		}
	}
}
