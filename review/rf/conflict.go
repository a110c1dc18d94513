package rf

import (
	"cmp"

	"passband.example/plandiff/signal"
)

// Kind is what two stations have too near to each other.
type Kind uint8

// The kinds.
const (
	CoChannel Kind = iota // the same frequency, or one that the table treats alike
	Adjacent              // frequencies next to each other
	Crossed               // the output of one on the input of the other: they can lock up
)

// String names the kind.
func (k Kind) String() string {
	switch k {
	case CoChannel:
		return "co-channel"
	case Adjacent:
		return "adjacent channel"
	default:
		return "crossed pair"
	}
}

// Conflict is a pair of stations that stands nearer than a row of the table asks, or nearly so. It is
// worth asking the coordinator about, no more: terrain is not in it, and they may have
// agreed to it.
type Conflict struct {
	Kind    Kind
	A, B    int          // indexes of the stations; A is ours, and the earlier where both are
	Spacing signal.Hertz // between the two frequencies that are compared
	Inputs  bool         // the inputs are compared, since the table asks more of them; else the outputs

	// Outgoing tells of a crossed pair that it is A's output which falls on B's input, not B's on A's.
	Outgoing bool

	Distance Interval // meters
	Bearing  float64  // from A to B in degrees from north
	Row      *Row     // the row that asks; Row.RequiredM is the other distance to print
	Short    Answer   // whether they are nearer than it asks; No: they are within NoteFactor of it
	Access   Access   // how their tones or color codes compare, on one channel
}

// NoteFactor is how much more than the asked distance is still worth a note (a proposal of this
// project, no source).
const NoteFactor = 1.2

// Share returns the distance as a share of what the row asks, the lower bound of it where a
// locator leaves room.
func (c *Conflict) Share() float64 { return c.Distance.Least / c.Row.RequiredM }

// gravity orders answers: short, perhaps short, not short.
func (a Answer) gravity() int {
	switch a {
	case Yes:
		return 0
	case CannotTell:
		return 1
	default:
		return 2
	}
}

// compareConflicts puts the gravest first: short before doubtful, then by share of the asked
// distance. The order is total, so that the same stations give the same report.
func compareConflicts(a, b Conflict) int {
	return cmp.Or(
		cmp.Compare(a.Short.gravity(), b.Short.gravity()),
		cmp.Compare(a.Share(), b.Share()),
		cmp.Compare(a.A, b.A), cmp.Compare(a.B, b.B), cmp.Compare(a.Kind, b.Kind),
	)
}
