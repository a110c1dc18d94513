package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed slot_overloaded.md
var slotOverloadedDoc string

// SlotOverloaded reports a time slot on which, by the club's own figures, more than one call in three finds it busy.
var SlotOverloaded = &review.Rule{
	ID:       "slot-overloaded",
	Severity: review.Warn, // every third call is lost
	Edition:  2026,
	Doc:      slotOverloadedDoc,
	Run:      func(p *review.Pass) { reportLoads(p, 1.0/3, 1) },
}
