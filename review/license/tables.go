package license

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"github.com/agnivade/levenshtein"
	"passband.example/plandiff/signal"
)

// Tables are the tables that apply in one region. They are safe for use by many goroutines.
type Tables struct {
	Region
	rows      []*Row      // all, by lower edge
	bars      index[*Row] // those that say no, places apart
	local     index[*Row] // those for a place
	segments  index[*Segment]
	splits    index[*SplitRow]
	services  index[carrier]
	classes   []classRow
	content   []*ContentRow
	places    map[string]*Place
	widths    []signal.Hertz // every width at which some row ends, narrowest first
	coverages *sync.Map      // filter to *coverage
}

// known keeps the tables of each region once they are made.
var known sync.Map // code to *Tables

// For returns the tables of a region: a code of ISO 3166-1 (US, GB), an ITU Region (ITU-R1), or
// FCC-regulated stations elsewhere (US-R1, US-R3). Case does not matter. A country without a
// table of its own gets the limits of its ITU Region: see Fallback. An unknown region is
// an *UnknownRegion.
func For(region string) (*Tables, error) {
	code := strings.ToUpper(strings.TrimSpace(region))
	if t, ok := known.Load(code); ok {
		return t.(*Tables), nil
	}
	l, err := embedded()
	if err != nil {
		return nil, fmt.Errorf("the license tables of this program are broken: %w", err)
	}
	r, ok := l.region(code)
	if !ok {
		return nil, l.unknownRegion(region)
	}
	t, _ := known.LoadOrStore(code, l.tables(r))
	return t.(*Tables), nil
}

// Regions returns the regions that have tables of their own, whole or in part, and the three
// ITU Regions, by code. Every other country is known too, and gets those of its ITU Region.
func Regions() ([]Region, error) {
	l, err := embedded()
	if err != nil {
		return nil, err
	}
	all := slices.DeleteFunc(slices.Clone(l.regions), func(r Region) bool {
		return r.Holds == ITUTable && !strings.HasPrefix(r.Code, "ITU-")
	})
	slices.SortFunc(all, func(a, b Region) int { return strings.Compare(a.Code, b.Code) })
	return all, nil
}

// region finds a region by its code, with the files that apply there.
func (l *library) region(code string) (Region, bool) {
	for _, r := range l.regions {
		if r.Code == code {
			return r, true
		}
	}
	i := slices.IndexFunc(l.countries, func(r Region) bool { return r.Code == code })
	if i < 0 {
		return Region{}, false
	}
	r := l.countries[i]
	model, ok := l.region(r.table)
	if !ok {
		model, _ = l.region(r.ituCode())
	}
	r.Holds, r.plans, r.splits, r.services = model.Holds, model.plans, model.splits, model.services
	if r.table != "" {
		r.Authority = model.Authority
	}
	if r.cept && !slices.Contains(r.services, "cept") {
		r.services = append([]string{"cept"}, r.services...)
	}
	return r, true
}

// owner returns the jurisdiction whose table is used.
func (r Region) owner() string {
	if r.table != "" {
		return r.table
	}
	return r.Code
}

func (r Region) ituCode() string { return fmt.Sprintf("ITU-R%d", r.ITU) }

// tables gathers what applies in a region.
func (l *library) tables(r Region) *Tables {
	owner := r.owner()
	t := &Tables{Region: r, content: l.content, places: l.places}
	for _, c := range l.classes {
		if c.jurisdiction == owner {
			t.classes = append(t.classes, c)
		}
	}
	rank := 0
	var segments []*Segment
	for _, name := range r.plans {
		for _, s := range l.plans[fileName(name)] {
			ranked := *s
			ranked.rank = rank
			segments = append(segments, &ranked)
		}
		rank++
	}
	t.segments = newIndex(segments)
	t.splits = newIndex(gather(l.splits, r.splits))
	t.services = newServices(gather(l.services, r.services))
	t.set(append(l.national(r, owner), l.bands[everywhere]...))
	return t
}

func gather[T any](all map[string][]T, names []string) (rows []T) {
	for _, name := range names {
		rows = append(rows, all[fileName(name)]...)
	}
	return rows
}

// national returns the rows of a region, its gaps filled from the ITU Region where its
// table has only a part of the law.
func (l *library) national(r Region, owner string) []*Row {
	itu := l.bands[r.ituCode()]
	switch r.Holds {
	case OwnTable:
		return slices.Clone(l.bands[owner])
	case ITUTable:
		return slices.Clone(itu)
	}
	rows := slices.Clone(l.bands[owner])
	own := newIndex(slices.DeleteFunc(slices.Clone(rows), func(r *Row) bool { return !r.grants() }))
	for _, row := range itu {
		if row.Right == Yes && len(own.overlapping(reach{halves(2 * row.Low), halves(2 * row.High)})) == 0 {
			rows = append(rows, row)
		}
	}
	return rows
}

// set indexes the rows.
func (t *Tables) set(rows []*Row) {
	var bars, local []*Row
	for _, row := range rows {
		switch {
		case row.Place != "":
			local = append(local, row)
		case row.Right == No:
			bars = append(bars, row)
		}
		if row.MaxWidth != 0 {
			t.widths = append(t.widths, row.MaxWidth)
		}
	}
	slices.Sort(t.widths)
	t.widths = slices.Compact(t.widths)
	t.rows, t.bars, t.local = newIndex(rows).items, newIndex(bars), newIndex(local)
	t.coverages = &sync.Map{}
}

// Fallback returns a sentence that says what stands in for a national table, and is
// empty where there is a whole one.
func (t *Tables) Fallback() string {
	switch t.Holds {
	case PartTable:
		return fmt.Sprintf("the table of %s has only a part of its bands; for the others the limits of ITU Region %d stand in, and national rules decide", t.Name, t.ITU)
	case ITUTable:
		return fmt.Sprintf("there is no license table for %s; the limits of ITU Region %d stand in, and national rules decide", t.Name, t.ITU)
	default:
		return ""
	}
}

// standsIn tells whether a row is one of the ITU Region.
func (t *Tables) standsIn(r *Row) bool { return r.Jurisdiction == t.ituCode() }

// Place returns a place that rows name, nil for a key that none of them has.
func (t *Tables) Place(key string) *Place { return t.places[key] }

// Rows returns all rows of the region's license tables, by lower edge.
func (t *Tables) Rows() []*Row { return slices.Clone(t.rows) }

// UnknownRegion is the error for a region that is in no table.
type UnknownRegion struct {
	Region  string
	Nearest string   // a code that is written much like it; may be empty
	Known   []string // the regions that have tables of their own
}

// Error says what there is, and what may have been meant.
func (e *UnknownRegion) Error() string {
	hint := ""
	if e.Nearest != "" {
		hint = fmt.Sprintf("did you mean %s? ", e.Nearest)
	}
	return fmt.Sprintf("region %.40q is not known, so nothing can be checked against a license; %sthere are tables for %s, and any other country by its two-letter code of ISO 3166-1",
		e.Region, hint, strings.Join(e.Known, ", "))
}

func (l *library) unknownRegion(region string) error {
	e := &UnknownRegion{Region: region}
	best := 3
	name := strings.ToUpper(strings.TrimSpace(region[:min(len(region), 60)]))
	for _, r := range slices.Concat(l.regions, l.countries) {
		if r.Holds != ITUTable || strings.HasPrefix(r.Code, "ITU-") {
			e.Known = append(e.Known, r.Code)
		}
		if strings.EqualFold(r.Name, name) {
			best, e.Nearest = 0, r.Code
		}
		if d := levenshtein.ComputeDistance(name, r.Code); d < min(best, len(r.Code)) {
			best, e.Nearest = d, r.Code
		}
	}
	slices.Sort(e.Known)
	return e
}
