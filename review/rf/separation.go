package rf

import "passband.example/plandiff/signal"

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
// those who know them. Each pair comes at most once for its outputs or inputs, whichever the table
// asks more of, and once as a crossed pair.
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
