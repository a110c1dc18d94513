package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed policy_changed.md
var policyChangedDoc string

// PolicyChanged reports a change of what is judged and how. It is judged with the
// policy, in package review, and has no Run.
var PolicyChanged = &review.Rule{
	ID:       review.PolicyChanged,
	Severity: review.Warn, // it may be right; somebody must have decided it
	Edition:  2026,
	Doc:      policyChangedDoc,
}
