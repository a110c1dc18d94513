package rf

import (
	"cmp"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
)

// Table answers which distance is asked between two stations of a region. It is safe for use by
// many goroutines.
type Table struct {
	bands map[string]*ladders
}

// ladders are the rows of one band for each pairing, by spacing, each up to the next.
type ladders [pairings][]*Row

// A pairing is how two stations use their frequencies, as far as rows ask.
type pairing uint8

const (
	fmAlike pairing = iota // FM and FM, same tone, or one without
	fmTones                // FM and FM, different tones
	dmrDMR
	fmDMR
	pairings
)

// asks tells whether a row is about a pairing.
func (a Applies) asks(p pairing) bool {
	switch a {
	case AnyPair:
		return true
	case BothFM:
		return p == fmAlike || p == fmTones
	case BothTones:
		return p == fmTones
	case BothDMR:
		return p == dmrDMR
	case Mixed:
		return p == fmDMR
	default:
		return false
	}
}

// Separations returns the table of a region: US-AL, US, any ISO 3166 code. It lays the rows of the
// country over the proposed defaults, those of the region over that, and a club's own, which
// count whatever region they name, over everything. A row replaces those below it with the
// same band and spacing; a row that asks 0 ends the table there.
func Separations(region string, own []Row) *Table {
	region = strings.ToUpper(strings.TrimSpace(region))
	country, _, _ := strings.Cut(region, "-")
	levels := [4][]*Row{}
	for _, row := range PublishedRows() {
		r := &row
		switch row.Region {
		case "any":
			levels[0] = append(levels[0], r)
		case region:
			levels[2] = append(levels[2], r)
		case country:
			levels[1] = append(levels[1], r)
		}
	}
	for i := range own {
		levels[3] = append(levels[3], &own[i])
	}
	t := &Table{bands: map[string]*ladders{}}
	for _, b := range bands {
		l := &ladders{}
		for p := range pairings {
			for _, level := range levels {
				l[p] = overlay(l[p], choose(level, b.name, p))
			}
		}
		t.bands[b.name] = l
	}
	return t
}

// choose returns the rows of a level for a band and a pairing, by spacing. Where several have one
// spacing it takes the most particular: of the band before of any, of the pairing before
// of any, the last written.
func choose(level []*Row, band string, p pairing) []*Row {
	var rows []*Row
	for _, r := range level {
		if (r.Band == band || r.Band == "any") && r.Applies.asks(p) {
			rows = append(rows, r)
		}
	}
	particular := func(r *Row) int {
		n := int(r.Applies)
		if r.Band != "any" {
			n += len(appliesWords)
		}
		return n
	}
	slices.SortStableFunc(rows, func(a, b *Row) int {
		return cmp.Or(cmp.Compare(a.Spacing, b.Spacing), cmp.Compare(particular(a), particular(b)))
	})
	var one []*Row
	for _, r := range rows {
		if n := len(one); n > 0 && one[n-1].Spacing == r.Spacing {
			one[n-1] = r
			continue
		}
		one = append(one, r)
	}
	return one
}

// overlay lays the rows of a level over those below it.
func overlay(below, above []*Row) []*Row {
	kept := slices.DeleteFunc(slices.Clone(below), func(r *Row) bool {
		return slices.ContainsFunc(above, func(a *Row) bool {
			return a.Spacing == r.Spacing || a.RequiredM == 0 && a.Spacing < r.Spacing
		})
	})
	all := append(kept, above...)
	slices.SortFunc(all, func(a, b *Row) int { return cmp.Compare(a.Spacing, b.Spacing) })
	return all
}

// row returns the row that two stations of a pairing fall under, or nil.
func (l *ladders) row(spacing signal.Hertz, p pairing) (found *Row) {
	for _, r := range l[p] {
		if r.Spacing > spacing {
			break
		}
		found = r
	}
	return found
}

// widest returns the largest distance asked at a spacing for any pairing, in meters.
func (l *ladders) widest(spacing signal.Hertz) (meters float64) {
	for p := range pairings {
		if r := l.row(spacing, p); r != nil {
			meters = max(meters, r.RequiredM)
		}
	}
	return meters
}

// window returns the spacing from which on nothing is asked.
func (l *ladders) window() (end signal.Hertz) {
	for _, ladder := range l {
		switch n := len(ladder); {
		case n == 0:
		case ladder[n-1].RequiredM == 0:
			end = max(end, ladder[n-1].Spacing)
		default:
			end = widestSpacing
		}
	}
	return end
}

// band returns the ladders of a frequency; those of no band ask nothing.
func (t *Table) band(f signal.Hertz) *ladders {
	if l := t.bands[Band(f)]; l != nil {
		return l
	}
	return &ladders{}
}

// Holds tells whether the table asks anything in the band of a frequency. Where it does not, nothing
// was checked, and that is to be said.
func (t *Table) Holds(f signal.Hertz) bool { return t.band(f).window() > 0 }

// Required returns the row that two stations fall under whose outputs, or inputs, are spacing apart
// in the band of f, and whether one does: the strictest of those for the modes that both
// have. Its RequiredM is 0 where nothing is asked.
func (t *Table) Required(f, spacing signal.Hertz, a, b *Station) (row *Row, ok bool) {
	l := t.band(f)
	if spacing < 0 || spacing >= l.window() {
		return nil, false
	}
	a.pairWith(b, func(p pairing) {
		if r := l.row(spacing, p); r != nil && (row == nil || r.RequiredM > row.RequiredM) {
			row = r
		}
	})
	return row, row != nil
}
