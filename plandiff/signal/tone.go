package signal

import (
	"errors"
	"fmt"
	"strings"
)

// Tone is what opens a squelch: a CTCSS tone, a DCS signal, or none, which is the zero
// value. Tones can be compared with ==, which compares how they are written; Same compares
// what radios hear.
type Tone struct {
	ctcss   CTCSS
	dcs     DCS
	digital bool
}

// ParseTone reads a CTCSS tone in hertz (103.5, 67) or a DCS code with its polarity
// (D023N). Three bare digits that are a listed tone are that tone; any other three digits
// that could be a DCS code are an error that asks which is meant. An empty text
// is an error: no tone is said by leaving it out.
func ParseTone(text string) (Tone, error) {
	switch {
	case strings.EqualFold(text, "none") || strings.EqualFold(text, "off"):
		return Tone{}, toneHertz.error(text, "is not a tone", "leave the tone out where there is none", "")
	case strings.TrimSpace(text) == "":
		return Tone{}, toneHertz.error(text, "is empty", "write hertz such as 103.5, a DCS code such as D023N, or leave it out", "")
	case writtenAsDCS(text):
		dcs, err := ParseDCS(text)
		if err != nil {
			return Tone{}, err
		}
		return dcs.Tone(), nil
	}
	ctcss, err := ParseCTCSS(text)
	switch {
	case err != nil:
		var bad *Error
		if errors.As(err, &bad) && couldBeDCS(bad.Fix) {
			return Tone{}, whichTone(text, bad.Problem, bad.Fix)
		}
		return Tone{}, err
	case couldBeDCS(text):
		return Tone{}, whichTone(text, "could be a DCS code and is no listed CTCSS tone", text)
	}
	return ctcss.Tone(), nil
}

// couldBeDCS tells three octal digits that are a tone in hertz, but not a listed one.
func couldBeDCS(text string) bool {
	if !looksBareDCS(text) {
		return false
	}
	ctcss, err := ParseCTCSS(text)
	return err == nil && !ctcss.Common()
}

// whichTone asks which of three things the digits mean.
func whichTone(text, problem, digits string) error {
	return toneHertz.error(text, problem, fmt.Sprintf("write D%[1]sN or D%[1]sI for DCS, or %[1]s.0 if hertz are meant", digits), "")
}

// writtenAsDCS tells a code that has at least one mark of DCS: the D or the polarity.
func writtenAsDCS(text string) bool {
	upper := upperASCII(strings.TrimSpace(text))
	digits := strings.TrimRight(upper, "NIR")
	return strings.HasPrefix(upper, "D") || digits != upper && isDigits(digits)
}

// IsZero tells whether there is no tone.
func (t Tone) IsZero() bool { return t == Tone{} }

// CTCSS returns the CTCSS tone, and whether t is one.
func (t Tone) CTCSS() (CTCSS, bool) { return t.ctcss, t.ctcss != 0 }

// DCS returns the DCS signal, and whether t is one.
func (t Tone) DCS() (DCS, bool) { return t.dcs, t.digital }

// Same tells whether t and other are one signal on the air: two spellings of a DCS
// signal are, and so are two absent tones.
func (t Tone) Same(other Tone) bool {
	if t.digital && other.digital {
		return t.dcs.Same(other.dcs)
	}
	return t == other
}

// String returns the tone as it is written in a plan, 103.5 or D023N, and "none" for the
// zero value.
func (t Tone) String() string {
	switch {
	case t.digital:
		return t.dcs.String()
	case t.ctcss != 0:
		return t.ctcss.String()
	default:
		return "none"
	}
}

// MarshalText returns String, or nothing for the zero value.
func (t Tone) MarshalText() ([]byte, error) { return marshalOptional(t, t.String()) }

// UnmarshalText reads what ParseTone reads, and nothing as the zero value.
func (t *Tone) UnmarshalText(text []byte) error { return unmarshalOptional(t, text, ParseTone) }
