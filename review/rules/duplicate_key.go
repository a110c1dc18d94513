package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed duplicate_key.md
var duplicateKeyDoc string

// DuplicateKey is the rule of a key that is written twice; loading finds it.
var DuplicateKey = &review.Rule{
	ID:       plan.DuplicateKey,
	Severity: review.Block, // one of the two has no effect
	Edition:  2026,
	Doc:      duplicateKeyDoc,
}
