package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed place_barred.md
var placeBarredDoc string

// PlaceBarred reports a repeater where the law lets nobody transmit on its frequency.
var PlaceBarred = &review.Rule{
	ID:       "place-barred",
	Severity: review.Block, // what is lawful elsewhere disturbs others there
	Edition:  2026,
	Doc:      placeBarredDoc,
	Run:      placeBarred,
}

func placeBarred(p *review.Pass) { atPlaces(p, license.Denied) }
