package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed bad_syntax.md
var badSyntaxDoc string

// BadSyntax is the rule of a file that is no YAML or CSV; loading finds it.
var BadSyntax = &review.Rule{
	ID:       plan.BadSyntax,
	Severity: review.Block, // nothing in the file can be judged
	Edition:  2026,
	Doc:      badSyntaxDoc,
}
