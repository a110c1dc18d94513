package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed split_reversed.md
var splitReversedDoc string

// SplitReversed reports a repeater whose split has the usual size and the other sign.
var SplitReversed = &review.Rule{
	ID:       "split-reversed",
	Severity: review.Warn, // another pairing may be coordinated; most often the sign is wrong
	Edition:  2026,
	Doc:      splitReversedDoc,
	Run:      splitReversed,
}

func splitReversed(p *review.Pass) { fitSplits(p, license.SplitReversed) }
