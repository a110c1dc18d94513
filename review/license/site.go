package license

import (
	"math"

	"passband.example/plandiff/signal"
)

// Site is where a station stands. A locator is a cell, not a point: HalfLat and HalfLon
// say how far the true place may be off, as signal.Grid.Center returns them.
type Site struct {
	At               signal.Position
	HalfLat, HalfLon signal.MicroDegrees
}

// A presence says whether a site lies in a place.
type presence uint8

const (
	outside presence = iota
	unsure           // no site, no limits, or too near to a limit
	inside
)

// An area is where a place is: one with the limits that a rule draws.
type area interface {
	holds(lat, lon float64) bool // degrees
}

// Place is a place that rows of the tables name.
type Place struct {
	Key   string
	Label string // north of Line A
	area  area   // nil where its limits were not found
	slack float64
	Provenance
}

// presence asks at the site and at eight points around it, as far away as the site and the
// limits of the place may be off. Where they differ, nothing is decided.
func (p *Place) presence(s *Site) presence {
	if s == nil || p.area == nil {
		return unsure
	}
	lat, lon := s.At.Lat.Degrees(), s.At.Lon.Degrees()
	upDown := s.HalfLat.Degrees() + p.slack/kmPerDegree
	leftRight := s.HalfLon.Degrees() + p.slack/kmPerDegree/math.Max(math.Cos(radians(lat)), 0.01)
	here := p.area.holds(lat, lon)
	for _, north := range []float64{-1, 0, 1} {
		for _, east := range []float64{-1, 0, 1} {
			if p.area.holds(lat+north*upDown, lon+east*leftRight) != here {
				return unsure
			}
		}
	}
	if here {
		return inside
	}
	return outside
}

// places is step 4 of Transmit, with the power limits that hold at a place.
func (j *judge) places() {
	for _, row := range j.local.overlapping(j.reach) {
		if !row.concerns(j.q.Class) || !row.stands(j.q.Station) || row.Emissions&j.q.Emission.Kind == 0 && j.q.Emission.Kind != 0 {
			continue
		}
		place := j.Place(row.Place)
		where := place.presence(j.q.Site)
		o := Objection{Rows: []*Row{row}, Place: place.Label, Outcome: Doubtful}
		if where == inside && place.Confidence != Memory {
			o.Outcome = Denied
		}
		over := j.q.overPower(row)
		switch {
		case where == outside:
		case row.Right == No:
			o.Reason = PlaceBarred
			j.object(o)
		case over != Allowed:
			o.Reason, o.Outcome = PlacePowerOver, min(o.Outcome, over)
			j.object(o)
		default:
			j.verdict.Also = append(j.verdict.Also, row)
		}
	}
}
