package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed off_band.md
var offBandDoc string

// OffBand reports a transmission outside every amateur band of the region, or over an
// edge of one.
var OffBand = &review.Rule{
	ID:       "off-band",
	Severity: review.Block, // it may disturb others, and is unlawful
	Edition:  2026,
	Doc:      offBandDoc,
	Run:      offBand,
}

func offBand(p *review.Pass) { unlawful(p, offTheBand) }
