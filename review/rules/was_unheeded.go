package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed was_unheeded.md
var wasUnheededDoc string

// WasUnheeded reports a stated rename that counts for nothing. It is judged in package
// review, since it needs the plan before the change, and has no Run.
var WasUnheeded = &review.Rule{
	ID:       review.WasUnheeded,
	Severity: review.Note, // nothing depends on it but how the change is told
	Edition:  2026,
	Doc:      wasUnheededDoc,
}
