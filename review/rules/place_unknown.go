package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed place_unknown.md
var placeUnknownDoc string

// PlaceUnknown reports a transmission whose lawfulness depends on a place that the plan
// does not tell, or not closely enough.
var PlaceUnknown = &review.Rule{
	ID:       "place-unknown",
	Severity: review.Warn, // whoever knows the place decides
	Edition:  2026,
	Doc:      placeUnknownDoc,
	Run:      placeUnknown,
}

func placeUnknown(p *review.Pass) { atPlaces(p, license.Doubtful) }
