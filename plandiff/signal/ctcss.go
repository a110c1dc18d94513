package signal

import (
	"slices"
	"strings"
)

// CTCSS is the frequency of a continuous subaudible tone in tenths of a hertz:
// 1035 is 103.5 Hz. The zero value is no tone.
//
// A plan holds hertz and never the number of a tone, since lists of 26 to 50 tones
// number them differently.
type CTCSS uint16

// toneHertz holds what can be a subaudible tone at all, 33.0 to 300.0 Hz. Lists run from
// 60.0 to 254.1 Hz; the room around them is for the odd ones that some equipment
// offers (common practice, no source).
var toneHertz = notation{
	kind: "tone", unit: "Hz", write: "write hertz, as in 103.5", places: 1, finest: "0.1 Hz", strict: true,
	lowest: 330, highest: 3000,
}

// ParseCTCSS reads a tone in hertz with at most one decimal: 103.5, 67, 100.0. It accepts
// any tone from 33.0 to 300.0 Hz: whether it is one that radios offer is another
// question, which Standard and Common answer.
func ParseCTCSS(text string) (CTCSS, error) {
	value, err := toneHertz.read(text)
	switch {
	case err == nil && toneHertz.holds(value):
		return CTCSS(value), nil
	case looksBareDCS(text):
		return 0, toneHertz.error(text, "looks like a DCS code", "write D"+text+"N or D"+text+"I for DCS, hertz such as 103.5 for CTCSS", "")
	case err != nil:
		return 0, err
	case value == 0:
		return 0, toneHertz.error(text, "is zero", "leave the tone out where there is none", "")
	case !strings.Contains(text, ".") && toneHertz.holds(value/10) && CTCSS(value/10).Common():
		return 0, toneHertz.fixed(text, "looks like tenths of a hertz", "write hertz: did you mean", CTCSS(value/10).String())
	default:
		return 0, toneHertz.error(text, "is not between 33.0 and 300.0 Hz", "write hertz such as 103.5, or a DCS code such as D023N", "")
	}
}

// String returns the tone in hertz with one decimal: 103.5, 67.0.
func (c CTCSS) String() string { return formatDecimal(int64(c), 1, 1) }

// Tone returns the CTCSS tone as a Tone.
func (c CTCSS) Tone() Tone { return Tone{ctcss: c} }

// Standard tells whether the tone is one of StandardCTCSS.
func (c CTCSS) Standard() bool { return slices.Contains(standardCTCSS[:], c) }

// Common tells whether the tone is one of CommonCTCSS.
func (c CTCSS) Common() bool { return c.Standard() || slices.Contains(addedCTCSS[:], c) }

// Nearest returns the tone of CommonCTCSS that is nearest to c, the lower one if two
// are. A tone that is not common and less than 0.5 Hz from one is likely a misprint of it.
func (c CTCSS) Nearest() CTCSS {
	tones := CommonCTCSS()
	nearest := tones[0]
	for _, tone := range tones {
		if distance(tone, c) < distance(nearest, c) {
			nearest = tone
		}
	}
	return nearest
}

func distance(a, b CTCSS) CTCSS { return max(a, b) - min(a, b) }

// MarshalText returns String, or nothing for the zero value.
func (c CTCSS) MarshalText() ([]byte, error) { return marshalOptional(c, c.String()) }

// UnmarshalText reads what ParseCTCSS reads, and nothing as the zero value.
func (c *CTCSS) UnmarshalText(text []byte) error { return unmarshalOptional(c, text, ParseCTCSS) }
