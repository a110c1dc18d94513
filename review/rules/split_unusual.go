package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed split_unusual.md
var splitUnusualDoc string

// SplitUnusual reports a repeater whose split is not one that is usual for its output.
var SplitUnusual = &review.Rule{
	ID:       "split-unusual",
	Severity: review.Warn, // another pairing may be coordinated; most often it is a slip
	Edition:  2026,
	Doc:      splitUnusualDoc,
	Run:      splitUnusual,
}

func splitUnusual(p *review.Pass) { fitSplits(p, license.SplitUnusual) }
