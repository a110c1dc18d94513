package signal

import (
	"fmt"
	"slices"
	"strings"
)

// DCS is a digital-coded squelch signal: a code and its polarity on the air. Code is
// 0 to 0o777, the three octal digits that are written.
//
// Different spellings can be one signal, because the receiver can't know where the
// repeated word begins: D023I, D047N and D340I are the same. Compare with Same, not
// with ==, to know what radios hear.
type DCS struct {
	Code     uint16
	Inverted bool
}

const largestDCS = 0o777

const writeDCS = "write D, three digits 0 to 7 and the polarity N or I, as in D023N"

// ParseDCS reads D, three octal digits and the polarity, N for normal or I for
// inverted: D023N, D023I. Small letters are read, and written as capitals. A code
// without its polarity is an error: half of the equipment would take it the wrong
// way, and YAML reads a bare 023 as the number 19.
func ParseDCS(text string) (DCS, error) {
	upper := upperASCII(text)
	if len(upper) != 5 || upper[0] != 'D' || !isOctal(upper[1:4]) || upper[4] != 'N' && upper[4] != 'I' {
		return DCS{}, explainDCS(text)
	}
	code := uint16(upper[1]-'0')<<6 | uint16(upper[2]-'0')<<3 | uint16(upper[3]-'0')
	return DCS{Code: code, Inverted: upper[4] == 'I'}, nil
}

func isOctal(text string) bool { return isDigits(text) && !strings.ContainsAny(text, "89") }

// looksBareDCS tells whether text is three octal digits and nothing else.
func looksBareDCS(text string) bool { return len(text) == 3 && isOctal(text) }

// explainDCS finds the likeliest reason why text is not a DCS code.
func explainDCS(text string) error {
	refuse := func(problem, instead, fix string) error {
		return &Error{Kind: "DCS code", Text: text, Problem: problem, Instead: instead, Fix: fix}
	}
	upper := upperASCII(strings.TrimSpace(text))
	rest, marked := strings.CutPrefix(upper, "D")
	digits := strings.TrimRight(rest, "NIR")
	polarity := rest[len(digits):]
	if upper == "" {
		return refuse("is empty", writeDCS, "")
	}
	if !isDigits(digits) || len(polarity) > 1 {
		return refuse("is not a DCS code", writeDCS, "")
	}
	switch {
	case strings.ContainsAny(digits, "89"):
		return refuse("has a digit 8 or 9", "DCS digits go from 0 to 7: look the code up again", "")
	case len(digits) > 3:
		return refuse("has more than three digits", writeDCS, "")
	case len(digits) < 3:
		code := fmt.Sprintf("D%03s", digits)
		return refuse("has fewer than three digits", fmt.Sprintf("if the zero got lost, write %sN or %sI", code, code), "")
	case polarity == "":
		return refuse("lacks its polarity", fmt.Sprintf("write D%sN for normal or D%sI for inverted", digits, digits), "")
	case polarity == "R":
		return refuse("has the polarity R", "write I for inverted: D"+digits+"I", "D"+digits+"I")
	case !marked:
		return refuse("lacks the D", "write D"+upper, "D"+upper)
	default:
		return refuse("has a space around it", "write it without: "+upper, upper)
	}
}

// String returns the code as it is written in a plan: D023N.
func (d DCS) String() string {
	if d.Inverted {
		return fmt.Sprintf("D%03oI", d.Code)
	}
	return fmt.Sprintf("D%03oN", d.Code)
}

// Tone returns the DCS signal as a Tone.
func (d DCS) Tone() Tone { return Tone{dcs: d, digital: true} }

// Standard tells whether the code is one of StandardDCS, in either polarity.
func (d DCS) Standard() bool {
	_, found := slices.BinarySearch(standardDCS[:], d.Code)
	return found
}

// Same tells whether d and other are one signal on the air.
func (d DCS) Same(other DCS) bool { return d.Canonical() == other.Canonical() }

// Canonical returns the one spelling that stands for all equal ones: a normal code of
// the standard list if there is one, else the lowest normal code. One signal has inverted
// spellings only, D112I and three more: there it is the lowest of them.
func (d DCS) Canonical() DCS {
	spellings := d.Spellings()
	for _, s := range spellings {
		if !s.Inverted && s.Standard() {
			return s
		}
	}
	return spellings[0]
}

// MarshalText returns String.
func (d DCS) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what ParseDCS reads.
func (d *DCS) UnmarshalText(text []byte) error { return unmarshal(d, text, ParseDCS) }
