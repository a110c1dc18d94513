package rf

import "passband.example/plandiff/signal"

// Station is a repeater, of the plan or of a neighbor, as far as its neighbors notice it.
type Station struct {
	Name     string          // how findings call it: a key of the plan, or a line of the neighbor list
	Callsign signal.Callsign // empty where it is not known
	Ours     bool            // of the plan; only pairs with one of ours are looked at
	Place    *Place          // nil where it is not known: then it is not looked at
	Output   signal.Hertz    // what it sends on
	Input    signal.Hertz    // what it hears; 0 where it hears nothing or it is not known

	FM        bool
	Tone      signal.Tone // what opens the FM input; the zero value is none
	DMR       bool
	ColorCode signal.ColorCode
}

// pairWith calls use with every pairing that two stations can meet in. A station with no mode
// counts as FM.
func (s *Station) pairWith(o *Station, use func(pairing)) {
	sFM, oFM := s.FM || !s.DMR, o.FM || !o.DMR
	if sFM && oFM {
		if s.Tone.IsZero() || o.Tone.IsZero() || s.Tone.Same(o.Tone) {
			use(fmAlike)
		} else {
			use(fmTones)
		}
	}
	if s.DMR && o.DMR {
		use(dmrDMR)
	}
	if sFM && o.DMR || s.DMR && oFM {
		use(fmDMR)
	}
}

// sameStation is how near two entries with one callsign and one output may be to be taken for one
// station: a neighbor list holds the plan's own repeaters too, at coordinates of its own. It is
// half the diagonal of a locator of six characters, rounded up.
const sameStation = 5_000 // m

// is tells whether two entries, one ours and one not, are the same station.
func (s *Station) is(o *Station) bool {
	return s.Ours != o.Ours && s.Callsign != "" && s.Callsign == o.Callsign && s.Output == o.Output &&
		Distance(*s.Place, *o.Place).Least <= sameStation
}

// Access says how the keys of two stations on one channel compare: the tone that opens an FM
// repeater, the color code of a DMR one.
type Access uint8

// From the most to the least troublesome. Keys keep listeners apart, not signals.
const (
	Uncompared    Access = iota // not on one channel, or nothing in common to compare
	SameTone                    // on one input: a member opens both
	SameColorCode               // on one output: a radio takes one for the other
	BothOpen                    // on one input, neither asks for a tone: any signal opens both
	OneOpen                     // on one input, one of them asks for no tone
	OtherKeys                   // different tones or color codes
)

// String says it in words.
func (a Access) String() string {
	switch a {
	case SameTone:
		return "the same access tone"
	case SameColorCode:
		return "the same color code"
	case BothOpen:
		return "no access tone on either"
	case OneOpen:
		return "no access tone on one of them"
	case OtherKeys:
		return "different access tones or color codes"
	default:
		return "no keys to compare"
	}
}

// access compares the keys of two stations, and returns the more troublesome answer of the
// modes that both have.
func (s *Station) access(o *Station) Access {
	found := Uncompared
	if s.FM && o.FM && s.Input != 0 && s.Input == o.Input {
		found = toneAccess(s.Tone, o.Tone)
	}
	if s.DMR && o.DMR && s.Output == o.Output {
		codes := OtherKeys
		if s.ColorCode == o.ColorCode {
			codes = SameColorCode
		}
		if found == Uncompared || codes < found {
			found = codes
		}
	}
	return found
}

func toneAccess(a, b signal.Tone) Access {
	switch {
	case a.IsZero() && b.IsZero():
		return BothOpen
	case a.IsZero() || b.IsZero():
		return OneOpen
	case a.Same(b):
		return SameTone
	default:
		return OtherKeys
	}
}
