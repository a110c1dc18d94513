package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/survey"
)

//go:embed place_far_off.md
var placeFarOffDoc string

// PlaceFarOff reports a station that stands far from all others, or whose coordinates written another
// way lie among them: a lost minus sign compares it with nobody.
var PlaceFarOff = &review.Rule{
	ID:       "place-far-off",
	Severity: review.Warn, // no distance to it is right, and nothing else says so
	Edition:  2026,
	Doc:      placeFarOffDoc,
	Run:      placeFarOff,
}

func placeFarOff(p *review.Pass) {
	around := surveyOf(p).Surroundings()
	for _, party := range around.Parties {
		away := around.Away(party.Place.At)
		slips := around.Slips(party)
		if party.Before || len(slips) == 0 && !around.FarOff(away) {
			continue
		}
		r, lat, lon := placedRecord(party)
		f := review.Finding{
			At: lon.At, About: []plan.Thing{r.Thing()}, Values: []string{party.Place.At.String()},
			What:   fmt.Sprintf("%s stands %s from the middle of the other stations", party.Name, survey.Km(away)),
			Why:    "if a sign was lost or two figures were swapped, no distance to it is right, and it is compared with nobody who is near",
			Fix:    "look its place up again; west and south have a minus sign. If it really stands there, accept the finding with that reason",
			Source: "more than a neighbor list needs: no separation row asks as much; the bounds are a proposal of this project, no source",
		}
		if !lon.IsSet() {
			f.At = r.Place()
		}
		if len(slips) > 0 {
			f.Fix = "did you mean " + slipText(slips[0], lat, lon) + "? " + f.Fix
		}
		if len(slips) == 1 && party.Repeater != nil && !around.Two() {
			f.Mend = placeMend(party.Repeater, slips[0])
		}
		p.Report(f)
		if around.Two() {
			return // which of the two is wrong can't be told
		}
	}
}

// placedRecord gives the record of a party, and its coordinates.
func placedRecord(party survey.Party) (r plan.Record, lat, lon plan.Value[signal.MicroDegrees]) {
	if party.Repeater != nil {
		return party.Repeater, party.Repeater.Site.Lat, party.Repeater.Site.Lon
	}
	return party.Neighbor, party.Neighbor.Lat, party.Neighbor.Lon
}

// slipText writes what differs in other coordinates.
func slipText(meant signal.Position, lat, lon plan.Value[signal.MicroDegrees]) string {
	switch {
	case meant.Lat == lat.V:
		return "lon: " + meant.Lon.String()
	case meant.Lon == lon.V:
		return "lat: " + meant.Lat.String()
	}
	return fmt.Sprintf("lat: %s, lon: %s", meant.Lat, meant.Lon)
}

func placeMend(r *plan.Repeater, meant signal.Position) review.Mend {
	var m review.Mend
	if meant.Lat != r.Site.Lat.V {
		m = append(m, mend(r, "site.lat", meant.Lat.String())...)
	}
	if meant.Lon != r.Site.Lon.V {
		m = append(m, mend(r, "site.lon", meant.Lon.String())...)
	}
	return m
}
