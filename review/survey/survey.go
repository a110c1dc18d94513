package survey

import (
	"errors"
	"fmt"
	"strings"

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
	for _, n := range p.NeighborList() {
		s.enter(ofNeighbor(p, n))
	}
	found := s.Table.Review(s.Stations)
	s.HeldBack = found.HeldBack
	remarks := remarksOf(p)
	for _, c := range found.Conflicts {
		conflict := Conflict{Conflict: c, Ours: s.parties[c.A], Other: s.parties[c.B], a: &s.Stations[c.A], b: &s.Stations[c.B]}
		conflict.Remarks = remarks.about(&conflict)
		s.Conflicts = append(s.Conflicts, conflict)
	}
	s.Unplaced, s.Unasked = s.named(found.Unplaced), s.named(found.Unasked)
	s.gather(found.Same)
	return s
}

// TableOf gives the separation table by which the stations of a plan are compared: the rows
// published for its area or country over the proposed defaults, and the club's own rows over
// them. A row that can't be used is left out: see OwnRow.
func TableOf(p *plan.Plan) *rf.Table {
	var own []rf.Row
	for _, r := range p.Separations() {
		if row, err := OwnRow(r); err == nil {
			own = append(own, row)
		}
	}
	return rf.Separations(p.Header.Area.Or(p.Header.Region.Or("")), own)
}

// OwnFile is the file of a row that is the club's own; the table of the program has the same name.
const OwnFile = "the club's " + plan.SeparationFile

// OwnRow reads one of the club's own rows, or says what is wrong with it.
func OwnRow(r *plan.SeparationRow) (rf.Row, error) {
	rows, err := rf.ReadRows(plan.SeparationFile, []byte(plan.SeparationColumns+"\n"+r.Row.V+"\n"))
	switch {
	case err != nil:
		problems := strings.ReplaceAll(err.Error(), plan.SeparationFile+":2: ", "")
		return rf.Row{}, errors.New(strings.ReplaceAll(problems, "\n", "; "))
	case len(rows) != 1:
		return rf.Row{}, errors.New("it holds no row")
	case rows[0].Applies >= rf.SharedPairs:
		return rf.Row{}, fmt.Errorf("applies %q is never applied, since a plan does not tell such stations; write one of %s", rows[0].Applies, strings.Join(rf.AppliedWords(), ", "))
	}
	rows[0].File, rows[0].Line = OwnFile, int(r.Place().Line)
	return rows[0], nil
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
