package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed power_unclear.md
var powerUnclearDoc string

// PowerUnclear reports a power above a limit that measures something else.
var PowerUnclear = &review.Rule{
	ID:       "power-unclear",
	Severity: review.Note, // the figures can't be compared, so nothing is known to be wrong
	Edition:  2026,
	Doc:      powerUnclearDoc,
	Run:      powerUnclear,
}

func powerUnclear(p *review.Pass) { overLimits(p, license.Doubtful) }
