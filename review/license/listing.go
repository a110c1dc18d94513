package license

import (
	"passband.example/plandiff/signal"
)

// Listing is everything that the tables say about a frequency.
type Listing struct {
	Frequency signal.Hertz
	Rows      []*Row        // of the license tables, by lower edge: rights, bars, and what holds at a place
	Segments  []*Segment    // of the band plans, in the order of Tables.Segments
	Splits    []*SplitRow   // that are usual if it is an output
	Services  []*ServiceRow // of other services that FM speech there would overlap
}

// At lists everything at a frequency, which may lie on an edge. Other services count if wide
// FM, the widest in use, would overlap them.
func (t *Tables) At(f signal.Hertz) Listing {
	l := Listing{Frequency: f, Segments: t.Segments(f), Splits: t.UsualSplits(f), Services: t.Services(f, FMWide().NecessaryBandwidth)}
	for _, row := range t.rows {
		if row.Low <= f && f <= row.High {
			l.Rows = append(l.Rows, row)
		}
	}
	return l
}
