package rf

import (
	"cmp"
	"slices"

	"passband.example/plandiff/signal"
)

// Pair is a repeater's two frequencies.
type Pair struct{ Output, Input signal.Hertz }

// Raster returns the pairs from low to high output, both included, a step apart. A step of zero or
// less, or one that would give more than 10,000 pairs, gives none.
func Raster(low, high, step signal.Hertz, split signal.Split) []Pair {
	if step <= 0 || high < low || (high-low)/step >= 10_000 {
		return nil
	}
	var pairs []Pair
	for f := low; f <= high; f += step {
		pairs = append(pairs, Pair{Output: f, Input: f + signal.Hertz(split)})
	}
	return pairs
}

// Wish is what a new repeater asks for.
type Wish struct {
	Station  Station // where it will stand and how it will be used; its frequencies are not looked at
	Pairs    []Pair  // to choose from: see Raster
	Stations []Station

	// Allowed says whether license and band plan let a pair be, and what is to be said of it either
	// way. It is asked first; nil allows everything.
	Allowed func(Pair) (reason string, ok bool)
}

// Fault is why a pair was left out.
type Fault uint8

// The faults, in the order in which they are looked for.
const (
	NoRow      Fault = iota // the table has no rows for the band
	NotAllowed              // by what the caller asked of license and band plan
	TooNear                 // a station stands nearer than the table asks, or may from a locator
	OnSite                  // a third-order product, or a second or third harmonic, at the site
	noFault
)

// String says it in words.
func (f Fault) String() string {
	switch f {
	case NoRow:
		return "no rows for the band"
	case NotAllowed:
		return "not allowed"
	case TooNear:
		return "too near to another station"
	default:
		return "a mixing product or harmonic at the site"
	}
}

// Candidate is a pair worth asking the coordinator about.
type Candidate struct {
	Pair
	Margin  float64   // the least distance to another station as a share of what is asked; +Inf: none in reach
	Nearest *Conflict // the station that sets the margin, B its index in Wish.Stations; nil where none is in reach
	Weak    []Product // fifth-order products at the site that the pair causes or suffers; see Choice.Site
	Reasons []string  // what speaks for it and against it, for people to read
}

// Choice is the answer to a Wish.
type Choice struct {
	Candidates []Candidate  // the best first
	LeftOut    [noFault]int // how many pairs each Fault ruled out

	// Site is the stations that share the site, as indexes in Wish.Stations. In the products of a
	// candidate 0 is the new station, 1 the first of these and so on. MaybeSite are those for
	// which a locator leaves it open; their products were not looked at.
	Site, MaybeSite []int

	Unplaced []int // stations whose place is not known: not looked at
}

// reachFactor is how far beyond the asked distance the station that sets a margin is looked for. Beyond it
// one pair is as good as another.
const reachFactor = 3

// Choose ranks the pairs that fit a wish: far enough from every station on the same and on neighboring
// frequencies, with no crossed pair, and with no third-order product or harmonic at the site that they
// cause or suffer. Pairs without fifth-order products come first, then those with the larger
// margin. It is a list to take to the coordinator, who knows of stations that no list has.
//
// A wish whose station has no place gives nothing to choose from.
func (t *Table) Choose(w Wish) Choice {
	if w.Station.Place == nil {
		return Choice{}
	}
	c := newChooser(t, w)
	for _, pair := range w.Pairs {
		candidate, fault := c.try(pair)
		if fault != noFault {
			c.choice.LeftOut[fault]++
			continue
		}
		c.choice.Candidates = append(c.choice.Candidates, candidate)
	}
	slices.SortFunc(c.choice.Candidates, compareCandidates)
	return c.choice
}

func compareCandidates(a, b Candidate) int {
	return cmp.Or(
		cmp.Compare(min(len(a.Weak), 1), min(len(b.Weak), 1)),
		cmp.Compare(b.Margin, a.Margin),
		cmp.Compare(len(a.Weak), len(b.Weak)),
		cmp.Compare(a.Output, b.Output), cmp.Compare(a.Input, b.Input),
	)
}
