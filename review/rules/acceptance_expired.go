package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed acceptance_expired.md
var acceptanceExpiredDoc string

// AcceptanceExpired reports an acceptance whose last day is past. It is judged with the
// policy, in package review, and has no Run.
var AcceptanceExpired = &review.Rule{
	ID:       review.AcceptanceExpired,
	Severity: review.Warn, // the finding itself counts again
	Edition:  2026,
	Doc:      acceptanceExpiredDoc,
}
