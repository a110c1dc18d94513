package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed crossed_pair.md
var crossedPairDoc string

// CrossedPair reports a repeater that sends on what another within reach listens to.
var CrossedPair = &review.Rule{
	ID:       "crossed-pair",
	Severity: review.Warn, // the coordinator may have agreed to it
	Edition:  2026,
	Doc:      crossedPairDoc,
	Run:      crossedPair,
}

func crossedPair(p *review.Pass) {
	reportConflicts(p, "crossed-pair", "the one opens the other, and two such repeaters can lock each other up")
}
