package license

import (
	"cmp"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
)

// Force says whether a table binds.
type Force uint8

const (
	Custom Force = iota // agreed among amateurs: what differs from it may warn
	Law                 // prescribed: what differs from it may block
)

var forceNames = names[Force]{"custom", "law"}

// String returns custom or law.
func (f Force) String() string { return forceNames.of(f) }

// Segment is one row of a band plan. A wide one and a narrow one may overlap: the narrower
// says more. Those that a Tables returns are shared: read them only.
type Segment struct {
	Plan       string       // US, IARU-R1: whose plan
	Low, High  signal.Hertz // edges included
	Center     signal.Hertz // of a single channel; zero for a range
	Use        string
	Force      Force
	Superseded bool         // a former edition, in use because old copies are everywhere
	MaxWidth   signal.Hertz // zero: none said
	Raster     signal.Hertz // the channel step; zero: none said
	Provenance
	rank int // of the plan, among those that apply
}

func (s *Segment) extent() (low, high signal.Hertz) { return s.Low, s.High }

// Calling tells whether the segment is a calling channel, or one kept for emergencies.
func (s *Segment) Calling() bool {
	return s.Center != 0 && (strings.Contains(s.Use, "calling") || strings.Contains(s.Use, "emergency"))
}

const segmentColumns = "low_mhz,high_mhz,center_mhz,use,force,superseded,max_width_hz,raster_hz,source,edition,confidence,note"

func readSegments(file, plan string, data []byte) ([]*Segment, error) {
	return readSheet(file, data, segmentColumns, func(c *cells) *Segment {
		s := &Segment{
			Plan: plan, Use: c.need("use"), Force: word(c, "force", forceNames), Superseded: c.flag("superseded"),
			MaxWidth: optional(c, "max_width_hz", c.hertz), Raster: optional(c, "raster_hz", c.hertz), Provenance: c.provenance(),
		}
		s.Low, s.High = c.interval()
		if c.text("center_mhz") != "" {
			s.Center = c.megahertz("center_mhz")
			if 2*s.Center != s.Low+s.High {
				c.problem("center_mhz %s is not in the middle of %s to %s", s.Center, s.Low, s.High)
			}
		}
		return s
	})
}

// Segments returns the segments that f lies in or on the edge of: those of the national plan
// before those of the region, former editions last, and of one plan the narrowest first.
func (t *Tables) Segments(f signal.Hertz) []*Segment { return t.SegmentsWithin(f, 1) }

// SegmentsWithin returns the segments that an emission around f touches, in the order of
// Segments.
func (t *Tables) SegmentsWithin(f, width signal.Hertz) []*Segment {
	found := t.segments.overlapping(reachOf(f, width))
	slices.SortStableFunc(found, func(a, b *Segment) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.High-a.Low, b.High-b.Low), cmp.Compare(a.Low, b.Low))
	})
	return found
}

// Calling returns the calling and emergency channels that an emission around f overlaps.
func (t *Tables) Calling(f, width signal.Hertz) []*Segment {
	return slices.DeleteFunc(t.SegmentsWithin(f, width), func(s *Segment) bool { return !s.Calling() })
}
