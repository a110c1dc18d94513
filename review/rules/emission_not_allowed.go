package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed emission_not_allowed.md
var emissionNotAllowedDoc string

// EmissionNotAllowed reports FM or DMR where the law lets amateurs send other kinds of
// signals alone, or narrower ones.
var EmissionNotAllowed = &review.Rule{
	ID:       "emission-not-allowed",
	Severity: review.Block, // the frequency is theirs, and not for this kind of signal
	Edition:  2026,
	Doc:      emissionNotAllowedDoc,
	Run:      emissionNotAllowed,
}

func emissionNotAllowed(p *review.Pass) { unlawful(p, ofEmission) }
