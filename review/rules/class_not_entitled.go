package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed class_not_entitled.md
var classNotEntitledDoc string

// ClassNotEntitled reports a transmission that only a higher class of license may make.
var ClassNotEntitled = &review.Rule{
	ID:       "class-not-entitled",
	Severity: review.Block, // members of the class would break the law by using it
	Edition:  2026,
	Doc:      classNotEntitledDoc,
	Run:      classNotEntitled,
}

func classNotEntitled(p *review.Pass) { unlawful(p, ofClass) }
