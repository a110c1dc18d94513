package license

import (
	"sort"

	"passband.example/plandiff/signal"
)

// A span is a range without a gap, made of rows that touch or overlap.
type span struct {
	reach
	rows []*Row // by lower edge
}

// A coverage is where one kind of emission of one class may go.
type coverage struct{ spans []span }

// A filter chooses the rows of a coverage. Its zero value chooses every row that gives a
// right to use its range.
type filter struct {
	class   Class
	kind    Kind         // zero: whatever it allows
	width   signal.Hertz // zero: whatever its width; else a width that all rows treat alike
	station Station      // Member: the general rights; else the rows for that kind of station
}

func (f filter) takes(r *Row) bool {
	if r.Right == No || r.Place != "" || !r.concerns(f.class) {
		return false
	}
	if f.station == Member && r.Station != Member {
		return false
	}
	if f.station != Member && (r.Station == Member || !r.stands(f.station)) {
		return false
	}
	return (f.kind == 0 || r.Emissions&f.kind != 0) && (r.MaxWidth == 0 || f.width <= r.MaxWidth)
}

// coverage returns the joined ranges for a filter. They are worked out once for each
// filter, and there are only as many as classes, kinds and steps of width.
func (t *Tables) coverage(f filter) *coverage {
	f.width = t.step(f.width)
	if known, ok := t.coverages.Load(f); ok {
		return known.(*coverage)
	}
	c := &coverage{}
	for _, row := range t.rows { // by lower edge
		if f.takes(row) {
			c.add(row)
		}
	}
	known, _ := t.coverages.LoadOrStore(f, c)
	return known.(*coverage)
}

func (c *coverage) add(row *Row) {
	low, high := halves(2*row.Low), halves(2*row.High)
	if n := len(c.spans); n > 0 && low <= c.spans[n-1].high {
		last := &c.spans[n-1]
		last.high, last.rows = max(last.high, high), append(last.rows, row)
		return
	}
	c.spans = append(c.spans, span{reach{low, high}, []*Row{row}})
}

// step returns the greatest width that every row treats like this one: the next width at
// which some row ends, or a width wider than all.
func (t *Tables) step(width signal.Hertz) signal.Hertz {
	if width <= 0 {
		return 0
	}
	if i := sort.Search(len(t.widths), func(i int) bool { return t.widths[i] >= width }); i < len(t.widths) {
		return t.widths[i]
	}
	return widest
}

const widest signal.Hertz = 1 << 40

// around returns the span that holds all of r, or else the one with most of it; nil if no
// span has any.
func (c *coverage) around(r reach) (s *span, whole bool) {
	first := sort.Search(len(c.spans), func(i int) bool { return c.spans[i].high > r.low })
	var most halves
	for i := first; i < len(c.spans) && c.spans[i].low < r.high; i++ {
		if common := min(r.high, c.spans[i].high) - max(r.low, c.spans[i].low); common > most {
			s, most = &c.spans[i], common
		}
	}
	return s, s != nil && s.low <= r.low && r.high <= s.high
}

// beside returns for the spans next to r, below and above, the row at the edge that is the
// better one to name.
func (c *coverage) beside(r reach, better func(a, b *Row) bool) []*Row {
	above := sort.Search(len(c.spans), func(i int) bool { return c.spans[i].low >= r.high })
	var rows []*Row
	pick := func(i int, atEdge func(*Row) bool) {
		if i < 0 || i >= len(c.spans) {
			return
		}
		var best *Row
		for _, row := range c.spans[i].rows {
			if atEdge(row) && (best == nil || better(row, best)) {
				best = row
			}
		}
		rows = append(rows, best)
	}
	pick(above-1, func(row *Row) bool { return halves(2*row.High) == c.spans[above-1].high })
	pick(above, func(row *Row) bool { return halves(2*row.Low) == c.spans[above].low })
	return rows
}

// within returns the rows of the span that overlap r.
func (s *span) within(r reach) []*Row {
	var rows []*Row
	for _, row := range s.rows {
		if halves(2*row.Low) < r.high && r.low < halves(2*row.High) {
			rows = append(rows, row)
		}
	}
	return rows
}

// Closest returns the centers closest to both edges of the band around q.Center at which the
// emission, of that class and kind of station, is inside a right and touches no bar; ok is
// false where there is no such center around it. Places and powers do not count.
func (t *Tables) Closest(q Query) (low, high signal.Hertz, ok bool) {
	j := judge{Tables: t, q: q}
	half := (q.Emission.NecessaryBandwidth + 1) / 2
	at := halves(2 * q.Center)
	free := reach{0, halves(2 * widest)}
	narrow := func(c *coverage, needed bool) {
		s, _ := c.around(point(q.Center))
		switch {
		case s != nil:
			free = reach{max(free.low, s.low), min(free.high, s.high)}
		case needed:
			free = reach{at, at}
		}
	}
	for kind := range q.Emission.Kind.each() {
		narrow(t.coverage(j.filter(kind)), true)
	}
	if q.Station != Member {
		c := t.coverage(filter{class: q.Class, station: q.Station})
		narrow(c, len(c.spans) > 0)
	}
	for _, bar := range t.bars.items {
		if !j.barredBy(bar) {
			continue
		}
		switch low, high := halves(2*bar.Low), halves(2*bar.High); {
		case high <= at:
			free.low = max(free.low, high)
		case low >= at:
			free.high = min(free.high, low)
		default:
			free = reach{at, at}
		}
	}
	low, high = signal.Hertz((free.low+1)/2)+half, signal.Hertz(free.high/2)-half
	return low, high, free.low < free.high && low <= high
}
