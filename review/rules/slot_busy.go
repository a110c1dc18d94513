package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed slot_busy.md
var slotBusyDoc string

// SlotBusy tells of a time slot on which, by the club's own figures, more than one call in ten finds it busy.
var SlotBusy = &review.Rule{
	ID:       "slot-busy",
	Severity: review.Note, // a yardstick
	Edition:  2026,
	Doc:      slotBusyDoc,
	Run:      func(p *review.Pass) { reportLoads(p, 0.10, 1.0/3) },
}
