package page

import (
	"cmp"
	"fmt"
	"slices"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
	"passband.example/review/rf"
	"passband.example/review/rules"
)

// A spectrum is what the channels occupy, band by band.
type spectrum struct {
	Compared bool
	Region   string // whose tables are drawn; "" where there are none
	Class    string
	Why      string // why no tables are drawn, or what stands in for them
	Bands    []*band
	More     int // strips that are left out
	MoreHave int // signals on them

	Products     []product // mixing products that fall on an input
	MoreProducts int
}

// A band is one figure.
type band struct {
	Number  int // for IDs in the page
	Name    string
	Strips  []*strip
	Rows    []tunedRow
	More    int // rows that are left out of the table
	Law     []lawRow
	LawMore int
}

// A tunedRow is a signal in the table beside the picture.
type tunedRow struct {
	*tuned
	Kilohertz string
	Compared  bool
}

// Differs tells whether another number of channels uses the signal than before.
func (r tunedRow) Differs() bool { return r.Compared && r.Was != r.Now }

// law is the tables whose segments are drawn; tables is nil where there are none.
type law struct {
	tables *license.Tables
	class  license.Class
}

func (s *sides) spectrum() *spectrum {
	sp := &spectrum{Compared: s.compared()}
	l := law{}
	var err error
	if l.tables, l.class, err = rules.Tables(s.judged); err != nil {
		sp.Why = err.Error()
	} else {
		sp.Region, sp.Class, sp.Why = l.tables.Name, l.tables.ClassLabel(l.class), l.tables.Fallback()
	}
	sp.Products, sp.MoreProducts = s.products()
	for _, st := range sp.choose(stripsOf(s.tuned())) {
		sp.add(st)
	}
	if i := slices.IndexFunc(sp.Bands, func(b *band) bool { return b.Name == outside }); i >= 0 {
		last := sp.Bands[i]
		sp.Bands = append(slices.Delete(sp.Bands, i, i+1), last)
	}
	for i, b := range sp.Bands {
		b.Number = i + 1
		for n, st := range b.Strips {
			st.ID = fmt.Sprintf("strip-%d-%d", b.Number, n+1)
			st.draw(l, sp.Products, s.compared())
		}
		b.list(l, s.compared())
	}
	return sp
}

// stripSpan is how much spectrum a strip shows: wide FM is nine units of the picture then.
const stripSpan signal.Hertz = 2_000_000

// stripsOf cuts the spectrum into strips, those of one band together, and leaves out where nothing is.
func stripsOf(all []*tuned) (strips []*strip) {
	for _, t := range all {
		name, low := bandName(t.Center), t.Center/stripSpan*stripSpan
		if n := len(strips); n == 0 || strips[n-1].Low != low || strips[n-1].Band != name {
			strips = append(strips, &strip{Low: low, High: low + stripSpan, Width: stripWidth, Band: name})
		}
		last := strips[len(strips)-1]
		last.signals = append(last.signals, t)
	}
	return strips
}

// outside heads what lies in no amateur band.
const outside = "Outside the amateur bands"

// bandName names the band of a frequency as a heading.
func bandName(f signal.Hertz) string {
	switch name := rf.Band(f); name {
	case "":
		return outside
	case "2m", "4m", "6m", "10m", "1.25m":
		return name[:len(name)-1] + " m"
	default:
		return name[:len(name)-2] + " cm"
	}
}

// choose keeps the strips that there is room for: those with a change first, then those with
// most signals, and gives them by frequency.
func (sp *spectrum) choose(all []*strip) []*strip {
	if len(all) <= MostStrips {
		return all
	}
	byWorth := slices.Clone(all)
	slices.SortStableFunc(byWorth, func(a, b *strip) int {
		return cmp.Or(cmp.Compare(b.changes(), a.changes()), cmp.Compare(len(b.signals), len(a.signals)))
	})
	for _, left := range byWorth[MostStrips:] {
		sp.More++
		sp.MoreHave += len(left.signals)
	}
	kept := byWorth[:MostStrips]
	slices.SortStableFunc(kept, func(a, b *strip) int { return cmp.Compare(a.signals[0].Center, b.signals[0].Center) })
	return kept
}

// add puts a strip under its band; what is outside the bands stands together.
func (sp *spectrum) add(st *strip) {
	i := slices.IndexFunc(sp.Bands, func(b *band) bool { return b.Name == st.Band })
	if i < 0 {
		i = len(sp.Bands)
		sp.Bands = append(sp.Bands, &band{Name: st.Band})
	}
	sp.Bands[i].Strips = append(sp.Bands[i].Strips, st)
}

// list makes the tables beside the pictures of a band.
func (b *band) list(l law, compared bool) {
	seen := make(map[lawRow]bool)
	for _, st := range b.Strips {
		for _, t := range st.signals {
			if len(b.Rows) == MostListed {
				b.More++
				continue
			}
			b.Rows = append(b.Rows, tunedRow{t, t.Width.KHz(), compared})
		}
		for _, row := range l.rows(st.Low, st.High) {
			switch {
			case seen[row]:
			case len(b.Law) == MostListed:
				b.LawMore++
			default:
				seen[row] = true
				b.Law = append(b.Law, row)
			}
		}
	}
}
