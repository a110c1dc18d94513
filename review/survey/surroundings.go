package survey

import (
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

// Surroundings are the stations whose place is known, and the middle of them.
type Surroundings struct {
	Parties []Party // the plan's own first

	middle signal.Position // the medians of latitude and longitude: one wrong place hardly moves them
	spread float64         // the median of the distances from it, in m
}

// The bounds are a proposal of this project, no source.
const (
	// farOffM is farther than any list of neighbors needs: four times the most that a row of the separation
	// table asks for.
	farOffM = 1_000_000
	// farOffSpreads is how many times as far as the half of all stations: a list of a whole country is wide.
	farOffSpreads = 5
	// slipM is beyond all that the separation table asks, with the fifth more of the strictest: nobody
	// lists a neighbor so far away that happens to lie opposite.
	slipM = 300_000
	// slipShare is how near the place that was meant lies, as a share of how far off it is.
	slipShare = 0.25
)

// Surroundings gives the stations whose place is known. It takes no longer than sorting them does.
func (s *Survey) Surroundings() Surroundings {
	var a Surroundings
	var lats, lons []signal.MicroDegrees
	for _, p := range s.parties {
		if p.Place != nil {
			a.Parties = append(a.Parties, p)
			lats, lons = append(lats, p.Place.At.Lat), append(lons, p.Place.At.Lon)
		}
	}
	if len(a.Parties) < 2 {
		return Surroundings{}
	}
	if a.Two() { // the middle of the others is the other
		a.middle = a.Parties[1].Place.At
		return a
	}
	a.middle = signal.Position{Lat: median(lats), Lon: middleLongitude(lons)}
	away := make([]float64, len(a.Parties))
	for i, p := range a.Parties {
		away[i] = a.Away(p.Place.At)
	}
	a.spread = median(away)
	return a
}

// Two reports whether there are only two stations, of which either may be the wrong one.
func (a *Surroundings) Two() bool { return len(a.Parties) == 2 }

// Away gives how far a place is from the middle, in m.
func (a *Surroundings) Away(at signal.Position) float64 { return rf.Geodesic(at, a.middle).Meters }

// FarOff reports whether so many meters from the middle are out of all proportion.
func (a *Surroundings) FarOff(meters float64) bool {
	return meters > farOffM && meters > farOffSpreads*a.spread
}

// Slips gives what may have been meant by the coordinates of a station that is far from the others: with
// another sign, or latitude and longitude exchanged, they lie among them.
func (a *Surroundings) Slips(p Party) []signal.Position {
	at, away := p.Place.At, a.Away(p.Place.At)
	if away <= max(slipM, farOffSpreads*a.spread) || !p.hasPoint() {
		return nil
	}
	var meant []signal.Position
	for _, other := range []signal.Position{{Lat: at.Lat, Lon: -at.Lon}, {Lat: -at.Lat, Lon: at.Lon}, {Lat: -at.Lat, Lon: -at.Lon}, {Lat: at.Lon, Lon: at.Lat}} {
		if other.Lat.Degrees() <= 90 && other.Lat.Degrees() >= -90 && a.Away(other) <= min(slipM, slipShare*away) {
			meant = append(meant, other)
		}
	}
	return meant
}

// hasPoint reports whether a station is placed by coordinates, and not by a locator.
func (p Party) hasPoint() bool {
	var lat plan.Value[signal.MicroDegrees]
	if p.Repeater != nil {
		lat = p.Repeater.Site.Lat
	} else {
		lat = p.Neighbor.Lat
	}
	return lat.IsSet()
}

func median[T int64 | float64 | signal.MicroDegrees](all []T) T {
	sorted := slices.Sorted(slices.Values(all))
	return sorted[(len(sorted)-1)/2]
}

// middleLongitude gives the median of longitudes on a circle that is cut open where it is emptiest, so
// that stations on both sides of 180 degrees are neighbors.
func middleLongitude(lons []signal.MicroDegrees) signal.MicroDegrees {
	const turn = 360_000_000
	sorted := slices.Sorted(slices.Values(lons))
	cut, widest := 0, sorted[0]+turn-sorted[len(sorted)-1]
	for i := 1; i < len(sorted); i++ {
		if gap := sorted[i] - sorted[i-1]; gap > widest {
			cut, widest = i, gap
		}
	}
	return sorted[(cut+(len(sorted)-1)/2)%len(sorted)]
}
