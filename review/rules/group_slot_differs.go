package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed group_slot_differs.md
var groupSlotDiffersDoc string

// GroupSlotDiffers reports a talkgroup that some repeaters carry on one time slot and some on
// the other.
var GroupSlotDiffers = &review.Rule{
	ID:       "group-slot-differs",
	Severity: review.Note, // networks do so at times, and nothing tells which is right
	Edition:  2026,
	Doc:      groupSlotDiffersDoc,
	Run:      groupSlotDiffers,
}

func groupSlotDiffers(p *review.Pass) {
	for _, s := range slotSplits(p) {
		if !s.odd() {
			p.Report(s.finding(p))
		}
	}
}
