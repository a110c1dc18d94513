package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed spacing_barely_met.md
var spacingBarelyMetDoc string

// SpacingBarelyMet reports two repeaters that stand hardly farther from each other than the separation table
// asks.
var SpacingBarelyMet = &review.Rule{
	ID:       "spacing-barely-met",
	Severity: review.Note, // the table is met
	Edition:  2026,
	Doc:      spacingBarelyMetDoc,
	Run:      spacingBarelyMet,
}

func spacingBarelyMet(p *review.Pass) {
	reportConflicts(p, "spacing-barely-met", "the table is met, but councils differ, and the strictest published ones ask a fifth more")
}
