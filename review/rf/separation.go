package rf

import (
	"slices"

	"passband.example/plandiff/signal"
)

// MostConflicts is how many conflicts a Review lists; the others are counted.
const MostConflicts = 10_000

// Review is what a table says about a list of stations.
type Review struct {
	Conflicts []Conflict // the gravest first
	HeldBack  int        // how many more there are, past MostConflicts
	Unplaced  []int      // stations without a place: not looked at
	Unasked   []int      // stations in a band that the table has no rows for: not looked at
	Same      [][2]int   // ours, and the entry of a neighbor list that was taken for it
}

// Review looks at every pair of stations of which at least one is ours: outputs against outputs,
// inputs against inputs, and outputs against inputs. Neighbors among themselves are left to
// those who know them. Each pair comes at most once for its outputs or inputs, whichever are
// the nearer, and once as a crossed pair.
//
// It takes time in proportion to the pairs that are near in frequency and in latitude: 30,000
// stations of a continent, all ours, in well under a second.
func (t *Table) Review(stations []Station) Review {
	s := &search{table: t, stations: stations, factor: NoteFactor, found: worst[Conflict]{keep: MostConflicts, compare: compareConflicts}}
	review := s.enroll()
	s.draw()
	for i := range s.spots {
		if s.spots[i].known && stations[i].Ours {
			s.around(i)
		}
	}
	review.Conflicts, review.HeldBack = s.settle()
	review.Same = s.same
	return review
}

// draw makes the plots of all stations.
func (s *search) draw() {
	s.outputs, s.inputs = s.plot(outputOf), s.plot(inputOf)
}

// around looks for what one station has too near, in the four ways in which frequencies can meet.
func (s *search) around(i int) {
	station := &s.stations[i]
	s.outputs.near(i, station.Output, s.outputsOf)
	s.inputs.near(i, station.Input, s.inputsOf)
	s.inputs.near(i, station.Output, s.crossOut)
	s.outputs.near(i, station.Input, s.crossIn)
}

func outputOf(s *Station) signal.Hertz { return s.Output }
func inputOf(s *Station) signal.Hertz  { return s.Input }

// A search is a Review at work.
type search struct {
	table    *Table
	stations []Station
	spots    []spot
	factor   float64 // pairs are looked for within this many times the asked distance
	outputs  *plot
	inputs   *plot
	found    worst[Conflict]
	same     [][2]int
}

// A spot is where a station stands, made ready for many comparisons.
type spot struct {
	at    [3]float64 // meters from the center of the earth
	slack float64    // meters
	known bool
}

// enroll finds the spots, and sets aside what can't be looked at.
func (s *search) enroll() (review Review) {
	s.spots = make([]spot, len(s.stations))
	for i := range s.stations {
		st := &s.stations[i]
		switch {
		case st.Place == nil:
			review.Unplaced = append(review.Unplaced, i)
		case !s.table.Holds(st.Output) && !s.table.Holds(st.Input):
			review.Unasked = append(review.Unasked, i)
		default:
			s.spots[i] = spotOf(st.Place)
		}
	}
	return review
}

func spotOf(p *Place) spot {
	return spot{at: ecef(p.At.Lat.Degrees(), p.At.Lon.Degrees()), slack: p.Slack(), known: true}
}

// outputsOf judges two stations by their outputs, unless their inputs are nearer to each other.
func (s *search) outputsOf(i, j int, apart signal.Hertz) {
	a, b := &s.stations[i], &s.stations[j]
	if b.Ours && j < i || distant(a.Input, b.Input) < apart && a.Input != 0 && b.Input != 0 {
		return
	}
	s.judge(Conflict{A: i, B: j, Spacing: apart}, a.Output)
}

// inputsOf judges two stations by their inputs, where those are nearer than their outputs.
func (s *search) inputsOf(i, j int, apart signal.Hertz) {
	a, b := &s.stations[i], &s.stations[j]
	if b.Ours && j < i || distant(a.Output, b.Output) <= apart && a.Output != 0 && b.Output != 0 {
		return
	}
	s.judge(Conflict{A: i, B: j, Spacing: apart, Inputs: true}, a.Input)
}

// crossOut judges the output of one station on the input of another.
func (s *search) crossOut(i, j int, apart signal.Hertz) {
	if s.crossedNearer(j, i, apart) {
		return
	}
	c := Conflict{Kind: Crossed, A: i, B: j, Spacing: apart, Outgoing: true}
	if s.stations[j].Ours && j < i {
		c.A, c.B, c.Outgoing = j, i, false
	}
	s.judge(c, s.stations[i].Output)
}

// crossIn judges the input of one of ours under the output of a neighbor. Where both are ours,
// crossOut comes from the other side.
func (s *search) crossIn(i, j int, apart signal.Hertz) {
	if s.stations[j].Ours || s.crossedNearer(i, j, apart) || distant(s.stations[i].Output, s.stations[j].Input) == apart {
		return
	}
	s.judge(Conflict{Kind: Crossed, A: i, B: j, Spacing: apart}, s.stations[i].Input)
}

// crossedNearer tells whether from's output is nearer to to's input than apart, or as near and from
// is the earlier of two of ours: then the pair is judged from that side.
func (s *search) crossedNearer(from, to int, apart signal.Hertz) bool {
	a, b := &s.stations[from], &s.stations[to]
	if a.Output == 0 || b.Input == 0 {
		return false
	}
	other := distant(a.Output, b.Input)
	return other < apart || other == apart && a.Ours && b.Ours && from < to
}

func distant(a, b signal.Hertz) signal.Hertz { return max(a-b, b-a) }

// judge adds what is short of the row that two stations fall under, or nearly so.
func (s *search) judge(c Conflict, f signal.Hertz) {
	a, b := &s.stations[c.A], &s.stations[c.B]
	row, ok := s.table.Required(f, c.Spacing, a, b)
	if !ok || row.RequiredM == 0 {
		return
	}
	slack := s.spots[c.A].slack + s.spots[c.B].slack
	through := distance3(s.spots[c.A].at, s.spots[c.B].at)
	if through-slack >= s.factor*row.RequiredM {
		return
	}
	if !s.kind(&c, f, row, a, b) {
		return
	}
	if a.is(b) {
		if c.Kind != Crossed {
			s.same = append(s.same, [2]int{c.A, c.B})
		}
		return
	}
	c.Row = row
	c.place(around(through, slack))
	s.found.add(c)
}

// place sets a distance, and what follows from it.
func (c *Conflict) place(d Interval) {
	c.Distance, c.Short = d, d.NearerThan(c.Row.RequiredM)
}

// settle returns what was found, with its exact distances. Until here straight lines through the
// ground stood for them, which are shorter by a few meters: they sort a hostile list of millions
// of pairs without a geodesic for each.
func (s *search) settle() (conflicts []Conflict, heldBack int) {
	found, heldBack := s.found.done()
	for _, c := range found {
		way := Geodesic(s.stations[c.A].Place.At, s.stations[c.B].Place.At)
		c.place(around(way.Meters, s.spots[c.A].slack+s.spots[c.B].slack))
		c.Bearing = way.Bearing
		if c.Distance.Least < s.factor*c.Row.RequiredM {
			conflicts = append(conflicts, c)
		}
	}
	slices.SortFunc(conflicts, compareConflicts)
	return conflicts, heldBack
}

// kind settles what a conflict is. Frequencies that differ are one channel where the table asks as
// much of them as of equal ones; only those count as crossed.
func (s *search) kind(c *Conflict, f signal.Hertz, row *Row, a, b *Station) bool {
	one, ok := s.table.Required(f, 0, a, b)
	alike := ok && row.RequiredM >= one.RequiredM
	switch {
	case c.Kind == Crossed:
		return alike
	case alike:
		c.Kind, c.Access = CoChannel, a.access(b)
	default:
		c.Kind = Adjacent
	}
	return true
}
