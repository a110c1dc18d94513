package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

//go:embed place_disagrees.md
var placeDisagreesDoc string

// PlaceDisagrees reports coordinates that lie neither in the cell of the locator beside them nor in one that
// touches it.
var PlaceDisagrees = &review.Rule{
	ID:       "place-disagrees",
	Severity: review.Warn, // one of the two is wrong, and distances are reckoned from one
	Edition:  2026,
	Doc:      placeDisagreesDoc,
	Run:      placeDisagrees,
}

func placeDisagrees(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.Sorted() {
		reportPlaces(p, r, r.Key.V, r.Site.Grid, r.Site.Lat, r.Site.Lon)
	}
	for _, n := range p.Plan.NeighborList() {
		if p.Plan.Lists(n) {
			reportPlaces(p, n, n.Called(), n.Grid, n.Lat, n.Lon)
		}
	}
}

func reportPlaces(p *review.Pass, r plan.Record, name string, grid plan.Value[signal.Grid], lat, lon plan.Value[signal.MicroDegrees]) {
	if !grid.IsSet() || !lat.IsSet() || !lon.IsSet() {
		return
	}
	at := signal.Position{Lat: lat.V, Lon: lon.V}
	if besideCell(at, grid.V) {
		return
	}
	center, _, _ := grid.V.Center()
	p.Report(review.Finding{
		At: grid.At, About: []plan.Thing{r.Thing()}, Values: []string{grid.V.String(), at.String()},
		What:   fmt.Sprintf("%s stands at %s, and the middle of its locator %s is %s from there", name, at, grid.V, survey.Km(rf.Geodesic(at, center).Meters)),
		Why:    "one of the two is wrong; distances are reckoned from the coordinates, and a person may trust the locator",
		Fix:    "look both up, correct the one that is wrong, or leave the locator out: it follows from the coordinates",
		Source: "the locator system of IARU Region 1, VHF Managers Handbook, section 5.12",
	})
}

// besideCell reports whether a place lies in a cell or in one that touches it, as where coordinates
// were rounded.
func besideCell(at signal.Position, grid signal.Grid) bool {
	const half, whole signal.MicroDegrees = 180_000_000, 360_000_000
	center, halfLat, halfLon := grid.Center()
	east := (at.Lon-center.Lon+half+whole)%whole - half
	return max(at.Lat-center.Lat, center.Lat-at.Lat) <= 3*halfLat && max(east, -east) <= 3*halfLon
}
