package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed unknown_key.md
var unknownKeyDoc string

// UnknownKey is the rule of a key that no section knows; loading finds it.
var UnknownKey = &review.Rule{
	ID:       plan.UnknownKey,
	Severity: review.Block, // what stands under it has no effect
	Edition:  2026,
	Doc:      unknownKeyDoc,
}
