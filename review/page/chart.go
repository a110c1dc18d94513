package page

import (
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

// A chart is the map of the repeaters, with the table beside it.
type chart struct {
	Compared  bool
	Stations  []*station // all that have a place, by key
	Listed    []*station // those in the table
	More      int        // that are left out of it
	Placeless []string   // keys of the first repeaters without a place
	Without   int        // how many have none
	Drawing   *drawing   // nil where no repeater has a place

	Conflicts     []conflict
	MoreConflicts int
}

// Accepted reports whether a coordinator remarked on one of the pairs.
func (c *chart) Accepted() bool {
	return slices.ContainsFunc(c.Conflicts, func(one conflict) bool { return len(one.Remarks) > 0 })
}

// A station is a repeater with a place.
type station struct {
	Key, Label string
	Output     string // MHz
	State      string // came, went, moved, changed, or ""
	Place      rf.Place
	Was        *rf.Place // where it stood, if that was elsewhere
	Where      string    // as a person reads it
	Locator    bool      // the place is a locator's cell, and not a point

	Near     *station // the nearest other one, where it was looked for
	Distance string   // to it
	Bearing  string   // of it
}

func (s *sides) chart() *chart {
	c := &chart{Compared: s.compared()}
	was := s.repeatersBefore()
	edited := s.editedRepeaters()
	for _, r := range s.new.Plan.Repeaters.Sorted() {
		st := stationOf(r)
		if st == nil {
			c.without(r.Key.V)
			continue
		}
		if s.compared() {
			st.compare(was[r.Key.V], edited[r.Key.V])
		}
		c.Stations = append(c.Stations, st)
	}
	for _, r := range s.repeatersGone() {
		if st := stationOf(r); st != nil {
			st.State = "went"
			c.Stations = append(c.Stations, st)
		}
	}
	c.Listed = listed(c.Stations)
	c.More = len(c.Stations) - len(c.Listed)
	neighbors(c.Stations, c.Listed)
	c.Conflicts, c.MoreConflicts = s.conflicts()
	c.Drawing = draw(c.Stations, c.Conflicts)
	return c
}

// namedPlaceless is how many repeaters without a place are named.
const namedPlaceless = 12

func (c *chart) without(key string) {
	c.Without++
	if len(c.Placeless) < namedPlaceless {
		c.Placeless = append(c.Placeless, key)
	}
}

// listed chooses the rows of the table: what differs first, then by key.
func listed(all []*station) []*station {
	rows := slices.Clone(all)
	slices.SortStableFunc(rows, func(a, b *station) int {
		same := map[bool]int{true: 1}
		return same[a.State == ""] - same[b.State == ""]
	})
	return rows[:min(len(rows), MostListed)]
}

func (s *sides) repeatersBefore() map[string]*plan.Repeater {
	was := make(map[string]*plan.Repeater)
	if s.compared() {
		for _, r := range s.old.Plan.Repeaters.All() {
			was[s.Comparison.Renames.Key(plan.KindRepeater, r.Key.V)] = r
		}
	}
	return was
}

func (s *sides) repeatersGone() (gone []*plan.Repeater) {
	if !s.compared() {
		return nil
	}
	for _, r := range s.old.Plan.Repeaters.Sorted() {
		if _, ok := s.new.Plan.Repeaters.Find(s.Comparison.Renames.Key(plan.KindRepeater, r.Key.V)); !ok {
			gone = append(gone, r)
		}
	}
	return gone
}

// editedRepeaters gives the keys of repeaters that somebody edited so that a radio notices.
func (s *sides) editedRepeaters() map[string]bool {
	edited := make(map[string]bool)
	if s.compared() {
		for i := range s.Comparison.Causes {
			c := &s.Comparison.Causes[i]
			edited[c.Thing.Key] = edited[c.Thing.Key] || c.Thing.Kind == plan.KindRepeater && c.Weight == plan.Air
		}
	}
	return edited
}

// stationOf gives a repeater its place: its coordinates, or the cell of its locator. It gives
// nil where the plan says neither.
func stationOf(r *plan.Repeater) *station {
	st := &station{Key: r.Key.V, Label: r.Called()}
	if r.Output.IsSet() {
		st.Output = r.Output.V.String()
	}
	place := survey.PlaceOf(r)
	switch {
	case place == nil:
		return nil
	case place.HalfLat == 0 && place.HalfLon == 0:
		st.Where = coordinates(place.At)
	default:
		st.Where, st.Locator = "somewhere in "+r.Site.Grid.V.String(), true
	}
	st.Place = *place
	return st
}

// Change says what became of it, for the table.
func (st *station) Change() string { return stateWords(st.State) }

// compare says what became of a repeater.
func (st *station) compare(was *plan.Repeater, edited bool) {
	if was == nil {
		st.State = "came"
		return
	}
	if edited {
		st.State = "changed"
	}
	if before := stationOf(was); before != nil && before.Place != st.Place {
		st.State, st.Was = "moved", &before.Place
	}
}
