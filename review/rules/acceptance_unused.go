package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed acceptance_unused.md
var acceptanceUnusedDoc string

// AcceptanceUnused reports an acceptance that matches no finding. It is judged with the
// policy, in package review, and has no Run.
var AcceptanceUnused = &review.Rule{
	ID:       review.AcceptanceUnused,
	Severity: review.Warn, // it hides nothing now, and would if the fault came back
	Edition:  2026,
	Doc:      acceptanceUnusedDoc,
}
