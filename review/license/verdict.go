package license

import (
	"slices"

	"passband.example/plandiff/signal"
)

// Query asks about one transmission.
type Query struct {
	Center   signal.Hertz
	Emission Emission
	Class    Class        // as Tables.Class returns it; empty: what all classes may together
	Station  Station      // what kind of station transmits
	Output   signal.Power // of the transmitter while it sends; zero: not known
	ERP      signal.Power // radiated, against a half-wave dipole; zero: not known
	Site     *Site        // where it stands; nil: not known
}

// Outcome is how a verdict ends.
type Outcome uint8

const (
	Allowed  Outcome = iota
	Doubtful         // the tables can't tell, or tell it from memory alone: warn
	Denied
)

var outcomeNames = names[Outcome]{"allowed", "doubtful", "denied"}

// String returns allowed, doubtful or denied.
func (o Outcome) String() string { return outcomeNames.of(o) }

// Reason is the kind of an objection.
type Reason uint8

const (
	OutsideBands   Reason = iota // in no band of the class at all
	OverEdge                     // in a band, and over an edge of it: see Below and Above
	ClassBarred                  // others may: see Classes
	EmissionBarred               // the emission is not allowed there
	TooWide                      // the emission is allowed, but not as wide
	NeedsPermit                  // only with a permission of one's own, or in some countries only
	StationBarred                // not for that kind of station: a repeater, a link
	OtherService                 // a range of another service
	NotAmateur                   // closed to amateurs, or to that emission, by a row of its own
	PlaceBarred                  // closed at the place where the site is or may be
	PowerOver                    // over a limit
	PlacePowerOver               // over a limit that holds at the place where the site is or may be
)

var reasonNames = names[Reason]{
	"outside every band", "over a band edge", "class not entitled", "emission not allowed", "too wide", "needs a permission",
	"kind of station barred", "another service", "closed to amateurs", "closed at this place", "over the power limit", "over the power limit of this place",
}

// String returns the reason in a few words.
func (r Reason) String() string { return reasonNames.of(r) }

// Objection is one thing that speaks against a transmission.
type Objection struct {
	Reason  Reason
	Outcome Outcome      // Doubtful or Denied
	Rows    []*Row       // what it rests on; for OutsideBands the nearest below and above
	Below   signal.Hertz // how far the emission reaches out below what is allowed, rounded up
	Above   signal.Hertz // and above
	Classes []Class      // ClassBarred: who may, from the least rights to the most
	Place   string       // PlaceBarred, PlacePowerOver: inside the Texas and New Mexico box
}

// Verdict is what the tables say about a query.
type Verdict struct {
	Outcome    Outcome      // the worst of the objections
	Objections []Objection  // in the order of the steps of Transmit
	Rows       []*Row       // what gives the right; nil where nothing does
	Also       []*Row       // what holds there without deciding: duties at a place
	Margin     signal.Hertz // to the nearest edge, rounded down, of a barred range too within 25 kHz; only where Rows is set
	Nearest    signal.Hertz // the nearest center that no objection to the frequency meets; zero: none, or not needed
	FromMemory bool         // some part of it rests on memory alone
	Fallback   bool         // some part of it rests on the limits of the ITU Region, for want of a national table
}

// object adds an objection, which denies if it does not say otherwise. One that rests on
// memory alone may warn and not block.
func (j *judge) object(o Objection) {
	v := &j.verdict
	if o.Outcome == Allowed {
		o.Outcome = Denied
	}
	if allFromMemory(o.Rows) {
		o.Outcome = Doubtful
		v.FromMemory = true
	}
	v.Fallback = v.Fallback || slices.ContainsFunc(o.Rows, j.standsIn)
	v.Outcome = max(v.Outcome, o.Outcome)
	v.Objections = append(v.Objections, o)
}

func allFromMemory(rows []*Row) bool {
	for _, row := range rows {
		if row.Confidence != Memory {
			return false
		}
	}
	return len(rows) > 0
}
