package survey

import (
	"passband.example/plandiff/plan"
	"passband.example/review/rf"
)

// A Survey is what the stations of a plan do to each other and to their neighbors.
type Survey struct {
	Conflicts []Conflict // pairs nearer than a table asks, or nearly so; the gravest first
	HeldBack  int        // how many more there are than are listed
	Sites     []Site     // places with two transmitters or more, of which one is the plan's

	MaybeSites [][2]Party // pairs for which a locator leaves open whether they share a site
	Unplaced   []Party    // stations whose place is not known: not compared
	Unasked    []Party    // stations in a band for which the table has no rows: not compared

	Table    *rf.Table
	Stations []rf.Station // the plan's own first, by key

	parties []Party // of the stations
}

// Of surveys the stations of a plan.
func Of(p *plan.Plan) *Survey {
	s := &Survey{Table: TableOf(p)}
	for _, r := range p.Repeaters.Sorted() {
		s.enter(ofRepeater(r))
	}
	found := s.Table.Review(s.Stations)
	s.HeldBack = found.HeldBack
	for _, c := range found.Conflicts {
		s.Conflicts = append(s.Conflicts, Conflict{Conflict: c, Ours: s.parties[c.A], Other: s.parties[c.B], a: &s.Stations[c.A], b: &s.Stations[c.B]})
	}
	s.Unplaced, s.Unasked = s.named(found.Unplaced), s.named(found.Unasked)
	s.gather()
	return s
}

// TableOf gives the separation table by which the stations of a plan are compared.
func TableOf(p *plan.Plan) *rf.Table {
	return rf.Separations(p.Header.Region.Or(""), nil)
}

func (s *Survey) enter(p Party, station rf.Station) {
	s.parties, s.Stations = append(s.parties, p), append(s.Stations, station)
}

func (s *Survey) named(indexes []int) []Party {
	parties := make([]Party, len(indexes))
	for i, at := range indexes {
		parties[i] = s.parties[at]
	}
	return parties
}
