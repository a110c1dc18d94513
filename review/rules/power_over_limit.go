package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed power_over_limit.md
var powerOverLimitDoc string

// PowerOverLimit reports a power above the limit of the license tables.
var PowerOverLimit = &review.Rule{
	ID:       "power-over-limit",
	Severity: review.Block, // the limit is law, and more carries farther than was agreed
	Edition:  2026,
	Doc:      powerOverLimitDoc,
	Run:      powerOverLimit,
}

func powerOverLimit(p *review.Pass) { overLimits(p, license.Denied) }
