package license

import (
	"cmp"
	"slices"

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
	Kept       Kept // what the segment is kept for, if that matters to FM and DMR
	Force      Force
	Superseded bool           // a former edition, in use because old copies are everywhere
	MaxWidth   signal.Hertz   // zero: none said
	Rasters    []signal.Hertz // the channel steps in use, the national one first; none said: empty
	Provenance
	rank int // of the plan, among those that apply
}

func (s *Segment) extent() (low, high signal.Hertz) { return s.Low, s.High }

// Kept is what a segment is kept for, where a voice in FM or DMR would drown that.
type Kept uint8

const (
	NotKept        Kept = iota // nothing that FM or DMR would drown, or local agreement decides
	WeakSignals                // SSB, CW and narrow digital modes
	Morse                      // CW
	Beacons                    // beacons
	Satellites                 // up and down to space stations
	CallingFM                  // calling in FM
	CallingDigital             // calling in digital voice
	CallingSSB                 // calling in SSB
	Emergency                  // traffic in an emergency
)

var keptNames = names[Kept]{"", "weak-signal", "CW", "beacons", "satellites", "calling-FM", "calling-digital", "calling-SSB", "emergency"}

// String returns the word of the tables, empty for NotKept.
func (k Kept) String() string { return keptNames.of(k) }

// Calling tells whether the segment is a calling channel, or one kept for emergencies.
func (s *Segment) Calling() bool { return s.Kept >= CallingFM }

const segmentColumns = "low_mhz,high_mhz,center_mhz,use,kept_for,force,superseded,max_width_hz,raster_hz,source,edition,confidence,note"

func readSegments(file, plan string, data []byte) ([]*Segment, error) {
	return readSheet(file, data, segmentColumns, func(c *cells) *Segment {
		s := &Segment{
			Plan: plan, Use: c.need("use"), Kept: word(c, "kept_for", keptNames), Force: word(c, "force", forceNames), Superseded: c.flag("superseded"),
			MaxWidth: optional(c, "max_width_hz", c.hertz), Provenance: c.provenance(),
		}
		s.Low, s.High = c.interval()
		for _, step := range c.list("raster_hz", "|") {
			s.Rasters = append(s.Rasters, c.width("raster_hz", step))
		}
		if s.Kept >= CallingFM && c.text("center_mhz") == "" {
			c.problem("a calling channel needs its center_mhz")
		}
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

// KeptAgainst returns the segments that a band plan keeps for weak signals, CW, beacons,
// satellites or calling in SSB and that an FM or DMR emission around f would reach into, in
// the order of Segments. A kept channel counts if f lies in it. A range does not count where
// a plan that comes before it, or a narrower segment of the same plan, says something else
// of f; nor does a former edition.
func (t *Tables) KeptAgainst(f, width signal.Hertz) []*Segment {
	found := t.SegmentsWithin(f, width)
	return slices.DeleteFunc(slices.Clone(found), func(s *Segment) bool {
		switch {
		case s.Superseded || s.Kept == NotKept || s.Kept == Emergency || s.Kept == CallingFM || s.Kept == CallingDigital:
			return true
		case s.Center != 0:
			return !s.holds(f)
		}
		return slices.ContainsFunc(found, func(o *Segment) bool { return o.overrules(s, f) })
	})
}

// holds tells whether f lies inside, which an edge does not.
func (s *Segment) holds(f signal.Hertz) bool { return s.Low < f && f < s.High }

// overrules tells whether s frees f, which the other keeps.
func (s *Segment) overrules(other *Segment, f signal.Hertz) bool {
	sooner := s.rank < other.rank || s.rank == other.rank && s.High-s.Low < other.High-other.Low
	overlap := s.Low < other.High && other.Low < s.High
	return sooner && overlap && s.Kept == NotKept && !s.Superseded && s.Low <= f && f <= s.High
}

// CallingOn returns the channels for calling in FM or digital voice and for emergencies that
// f lies in.
func (t *Tables) CallingOn(f signal.Hertz) []*Segment {
	return slices.DeleteFunc(t.Segments(f), func(s *Segment) bool {
		return !s.Calling() || s.Kept == CallingSSB || s.Superseded || !s.holds(f)
	})
}

// Raster returns the segment whose channel steps count at f, or nil where no plan that
// comes first says any.
func (t *Tables) Raster(f signal.Hertz) *Segment {
	for _, s := range t.Segments(f) {
		if s.Superseded || s.Center != 0 {
			continue
		}
		if len(s.Rasters) == 0 {
			return nil
		}
		return s
	}
	return nil
}
