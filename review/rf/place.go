package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

// Place is where a station stands. A locator names a cell, not a point: HalfLat and HalfLon say
// how far the true place may be off, as signal.Grid.Center returns them. Both are zero for
// coordinates.
type Place struct {
	At               signal.Position
	HalfLat, HalfLon signal.MicroDegrees
}

// PlaceOf returns the place that a parsed locator names.
func PlaceOf(g signal.Grid) Place {
	at, halfLat, halfLon := g.Center()
	return Place{At: at, HalfLat: halfLat, HalfLon: halfLon}
}

// Slack returns how many meters the true place may be off: half the diagonal of the cell,
// toward the equator where the cell is wider. It is 102 km for a locator of four
// characters at 40 degrees, 4.2 km for six, and 0 for coordinates.
func (p Place) Slack() float64 {
	if p.HalfLat == 0 && p.HalfLon == 0 {
		return 0
	}
	toward := p.HalfLat
	if p.At.Lat > 0 {
		toward = -toward
	}
	return Geodesic(p.At, signal.Position{Lat: p.At.Lat + toward, Lon: p.At.Lon + p.HalfLon}).Meters
}

// Interval is a distance that is known only to lie between two bounds, in meters.
type Interval struct{ Least, Most float64 }

// Distance returns how far apart two places are. Between coordinates both bounds are equal;
// between cells the interval is that of their centers, wider by the slack of each.
func Distance(a, b Place) Interval {
	return around(Geodesic(a.At, b.At).Meters, a.Slack()+b.Slack())
}

func around(meters, slack float64) Interval {
	return Interval{Least: math.Max(meters-slack, 0), Most: meters + slack}
}

// Certain tells whether the distance is known, because both places are coordinates.
func (i Interval) Certain() bool { return i.Least == i.Most }

// Answer is what can be said about a distance.
type Answer uint8

// The answers.
const (
	CannotTell Answer = iota // from a locator: the threshold lies within the interval
	Yes
	No
)

// String returns the answer in words.
func (a Answer) String() string {
	switch a {
	case Yes:
		return "yes"
	case No:
		return "no"
	default:
		return "cannot tell from a locator"
	}
}

// NearerThan answers whether the distance is less than so many meters.
func (i Interval) NearerThan(meters float64) Answer {
	switch {
	case i.Most < meters:
		return Yes
	case i.Least >= meters:
		return No
	default:
		return CannotTell
	}
}
