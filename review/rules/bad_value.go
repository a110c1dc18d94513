package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed bad_value.md
var badValueDoc string

// BadValue is the rule of a value that means nothing in its place; loading finds it.
var BadValue = &review.Rule{
	ID:       plan.BadValue,
	Severity: review.Block, // a radio would be loaded without it
	Edition:  2026,
	Doc:      badValueDoc,
}
