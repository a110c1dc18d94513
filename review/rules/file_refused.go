package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed file_refused.md
var fileRefusedDoc string

// FileRefused is the rule of a file that is not read; loading finds it.
var FileRefused = &review.Rule{
	ID:       plan.FileRefused,
	Severity: review.Block, // what stands in the file cannot be judged
	Edition:  2026,
	Doc:      fileRefusedDoc,
}
