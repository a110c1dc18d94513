package rf

import (
	"slices"

	"passband.example/plandiff/signal"
)

// A meeting is two frequencies of two stations that may disturb each other.
type meeting struct{ f, g signal.Hertz }

func (m meeting) apart() signal.Hertz { return distant(m.f, m.g) }

func distant(a, b signal.Hertz) signal.Hertz { return max(a-b, b-a) }

// outputsOf judges two stations by their outputs, unless the table asks more of their inputs.
func (s *search) outputsOf(i, j int) {
	a, b := &s.stations[i], &s.stations[j]
	outputs, inputs := meeting{a.Output, b.Output}, meeting{a.Input, b.Input}
	if b.Ours && j < i || s.yields(outputs, inputs, s.asked, a, b, false) {
		return
	}
	s.judge(Conflict{A: i, B: j}, outputs)
}

// inputsOf judges two stations by their inputs, unless the table asks as much of their outputs.
func (s *search) inputsOf(i, j int) {
	a, b := &s.stations[i], &s.stations[j]
	outputs, inputs := meeting{a.Output, b.Output}, meeting{a.Input, b.Input}
	if b.Ours && j < i || s.yields(inputs, outputs, s.asked, a, b, true) {
		return
	}
	s.judge(Conflict{A: i, B: j, Inputs: true}, inputs)
}

// crossOut judges the output of one station on the input of another. Where both are ours, each is
// looked at from its own side, and of two equal meetings the earlier station's counts.
func (s *search) crossOut(i, j int) {
	a, b := &s.stations[i], &s.stations[j]
	out, in := meeting{a.Output, b.Input}, meeting{b.Output, a.Input}
	later := b.Ours && j < i
	if s.yields(out, in, s.askedAlike, a, b, later) {
		return
	}
	if later {
		s.judge(Conflict{Kind: Crossed, A: j, B: i}, out)
		return
	}
	s.judge(Conflict{Kind: Crossed, A: i, B: j, Outgoing: true}, out)
}

// crossIn judges the output of a neighbor on the input of one of ours.
func (s *search) crossIn(i, j int) {
	a, b := &s.stations[i], &s.stations[j]
	out, in := meeting{a.Output, b.Input}, meeting{b.Output, a.Input}
	if b.Ours || s.yields(in, out, s.askedAlike, a, b, true) {
		return
	}
	s.judge(Conflict{Kind: Crossed, A: i, B: j}, in)
}

// yields tells whether one meeting of two stations goes unsaid, because more is asked of the other,
// or as much and its frequencies are nearer; tie decides where they are equal in both.
func (s *search) yields(one, other meeting, asked func(meeting, *Station, *Station) float64, a, b *Station, tie bool) bool {
	first, second := asked(one, a, b), asked(other, a, b)
	switch {
	case first != second:
		return first < second
	case one.apart() != other.apart():
		return second > 0 && other.apart() < one.apart()
	default:
		return tie
	}
}

// asked returns the distance that the table asks for a meeting, in meters; 0 where a frequency is not known.
func (s *search) asked(m meeting, a, b *Station) float64 {
	if m.f == 0 || m.g == 0 {
		return 0
	}
	if row, ok := s.table.Required(m.f, m.apart(), a, b); ok {
		return row.RequiredM
	}
	return 0
}

// askedAlike returns the same where it is as much as for one channel, and else 0.
func (s *search) askedAlike(m meeting, a, b *Station) float64 {
	meters := s.asked(m, a, b)
	if meters < s.asked(meeting{m.f, m.f}, a, b) {
		return 0
	}
	return meters
}

// judge adds what is short of the row that two stations fall under, or nearly so. Frequencies that
// differ are one channel where the table asks as much of them as of equal ones; only those
// count as crossed.
func (s *search) judge(c Conflict, m meeting) {
	a, b := &s.stations[c.A], &s.stations[c.B]
	row, ok := s.table.Required(m.f, m.apart(), a, b)
	if !ok || row.RequiredM == 0 {
		return
	}
	slack := s.spots[c.A].slack + s.spots[c.B].slack
	through := distance3(s.spots[c.A].at, s.spots[c.B].at)
	if through-slack >= s.factor*row.RequiredM {
		return
	}
	switch alike := s.askedAlike(m, a, b) > 0; {
	case c.Kind == Crossed && !alike:
		return
	case c.Kind == CoChannel && alike:
		c.Access = a.access(b)
	case c.Kind == CoChannel:
		c.Kind = Adjacent
	}
	if a.is(b) {
		if c.Kind != Crossed {
			s.same = append(s.same, [2]int{c.A, c.B})
		}
		return
	}
	c.Spacing, c.Row = m.apart(), row
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
