package license

import (
	"slices"

	"passband.example/plandiff/signal"
)

// Class is a license class as the tables write it: technician, basic-honours, a. The
// empty class stands for the rights of all classes together.
type Class string

// Right is what a row gives or takes.
type Right uint8

const (
	Yes    Right = iota // may transmit
	No                  // may not; wins over every row it overlaps
	Permit              // may transmit with a permission of one's own, or in some countries only
)

var rightNames = names[Right]{"yes", "no", "permit"}

// String returns the word of the tables.
func (r Right) String() string { return rightNames.of(r) }

// Station is the kind of station that transmits, as the rules tell them apart.
type Station uint8

const (
	Member         Station = iota // anybody's own radio; in a row: every station
	RepeaterInput                 // a member's radio on the input of a repeater, which receives there
	RepeaterOutput                // a repeater, transmitting
	Repeater                      // in a row only: a repeater, receiving and transmitting
	Auxiliary                     // a link, a remote base or a control link
	Beacon                        // a beacon without a control operator
	Space                         // in a row only, for Listing
	Earth                         // in a row only, for Listing
)

var stationNames = names[Station]{
	"", "repeater-input", "repeater-output", "repeater", "auxiliary", "beacon", "space", "earth",
}

// String returns the word of the tables; a member's own radio has none.
func (s Station) String() string { return stationNames.of(s) }

// Row is one row of a license table. Rows that a Verdict or a Listing points to are shared:
// read them only.
type Row struct {
	Jurisdiction string       // US, GB, ITU-R1, any, or club
	Classes      []Class      // who it is about; empty: everybody
	Service      string       // amateur, or the service that the range belongs to
	Station      Station      // Member: every station
	Place        string       // the key of a place that it is about; empty: everywhere
	Low, High    signal.Hertz // edges included
	Right        Right
	Emissions    Kind
	MaxWidth     signal.Hertz // occupied width; zero: no number in the rule
	MaxPower     signal.Power
	PowerKind    PowerKind
	Condition    string
	Provenance
}

func (r *Row) extent() (low, high signal.Hertz) { return r.Low, r.High }

// concerns tells whether the row speaks of a class. A query for no class asks what all
// classes may together, so that only what everybody is denied concerns it.
func (r *Row) concerns(c Class) bool {
	switch {
	case len(r.Classes) == 0:
		return true
	case c == "":
		return r.Right != No
	default:
		return slices.Contains(r.Classes, c)
	}
}

// stands tells whether the row speaks of a kind of station.
func (r *Row) stands(s Station) bool {
	switch r.Station {
	case Member, s:
		return true
	case Repeater:
		return s == RepeaterInput || s == RepeaterOutput
	default:
		return false
	}
}

// grants tells whether the row gives the right to use its range in general: not to a kind
// of station or at a place.
func (r *Row) grants() bool { return r.Right != No && r.Station == Member && r.Place == "" }
