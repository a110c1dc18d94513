package signal

import (
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"
)

// Callsign is the call sign of a station in capitals, without what operators add behind
// a slash. The zero value stands for one that is not given.
type Callsign string

const (
	shortestCallsign = 3
	longestCallsign  = 10
	writeCallsign    = "write letters and digits alone, as in N0QRV"
)

// ParseCallsign reads a call sign and puts it in capitals. It refuses only what cannot be
// one: other characters than A to Z and 0 to 9, fewer than three or more than ten of
// them, no letter, no digit. Some countries assign calls outside the form of the Radio
// Regulations, so ITUForm checks that apart.
func ParseCallsign(text string) (Callsign, error) {
	upper := upperASCII(text)
	switch {
	case strings.TrimSpace(text) == "":
		return "", callsignError(text, "is empty", writeCallsign, "")
	case len(text) > longestShown:
		return "", callsignError(text, "is too long", writeCallsign, "")
	case strings.Trim(upper, letters+digits) != "" || strings.ContainsFunc(upper, notPlain):
		return "", explainCallsign(text, upper)
	case len(upper) < shortestCallsign:
		return "", callsignError(text, "has fewer than three characters", writeCallsign, "")
	case len(upper) > longestCallsign:
		return "", callsignError(text, "has more than ten characters", writeCallsign, "")
	case !strings.ContainsAny(upper, digits):
		return "", noDigit(text, upper)
	case !strings.ContainsAny(upper, letters):
		return "", callsignError(text, "has no letter", writeCallsign, "")
	}
	return Callsign(upper), nil
}

const (
	letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	digits  = "0123456789"
)

func notPlain(r rune) bool { return !strings.ContainsRune(letters+digits, r) }

func callsignError(text, problem, instead, fix string) error {
	return &Error{Kind: "callsign", Text: text, Problem: problem, Instead: instead, Fix: fix}
}

// explainCallsign says which character a callsign cannot have, and offers the rest.
func explainCallsign(text, upper string) error {
	trimmed := strings.TrimSpace(upper)
	problem := "has characters that are not A to Z or 0 to 9"
	var candidate string
	switch {
	case trimmed != upper:
		problem, candidate = "has a space around it", trimmed
	case strings.ContainsAny(upper, "/-"):
		problem = "has an addition that is operating practice, not part of the call"
		for part := range strings.FieldsFuncSeq(upper, func(r rune) bool { return r == '/' || r == '-' }) {
			if len(part) > len(candidate) {
				candidate = part
			}
		}
	case strings.ContainsAny(upper, "Øø∅"):
		problem = "has a slashed zero"
		candidate = strings.NewReplacer("Ø", "0", "ø", "0", "∅", "0").Replace(upper)
	case !utf8.ValidString(text):
		problem = "is not valid text"
	}
	if call, err := ParseCallsign(candidate); err == nil {
		return callsignError(text, problem, "write the call alone: "+string(call), string(call))
	}
	return callsignError(text, problem, writeCallsign, "")
}

// noDigit offers a zero where a letter O stands in the place of the digit.
func noDigit(text, upper string) error {
	for i := 1; i < len(upper) && i < 4; i++ {
		fix := upper[:i] + "0" + upper[i+1:]
		if upper[i] == 'O' && Callsign(fix).ITUForm() == nil {
			return callsignError(text, "has the letter O where the digit belongs", "write a zero: "+fix, fix)
		}
	}
	return callsignError(text, "has no digit", writeCallsign, "")
}

// The forms of ITU Radio Regulations 19.68 and, for series shared by two countries,
// 19.68.1.
var (
	generalForm = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^(?:[BFGIKMNRW][0-9]|(?:[A-Z]{2}|[A-Z][0-9]|[0-9][A-Z])[0-9])[A-Z0-9]{0,3}[A-Z]$`)
	})
	halfSeriesForm = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^(?:3D|SS)[A-Z][0-9][A-Z0-9]{0,2}[A-Z]$`)
	})
	longForm = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^(?:[BFGIKMNRW][0-9]|(?:[A-Z]{2}|[A-Z][0-9]|[0-9][A-Z])[0-9])[A-Z0-9]{4,}[A-Z]$`)
	})
)

// ITUForm returns nil if the callsign has the form of an amateur station's in the ITU
// Radio Regulations, 19.68 and 19.68.1, and otherwise an *Error that says what differs.
// That deserves a warning and no more: countries do assign calls of other forms.
func (c Callsign) ITUForm() error {
	call := string(c)
	const check = "check it against the license; some countries do assign such calls"
	switch {
	case generalForm().MatchString(call) || halfSeriesForm().MatchString(call):
		return nil
	case longForm().MatchString(call):
		return callsignError(call, "has more than four characters after its digit, which is for special occasions (ITU RR 19.68A)", check, "")
	case call != "" && strings.HasSuffix(digits, call[len(call)-1:]) || strings.TrimRight(call, digits) != call:
		return callsignError(call, "ends in a digit, and the last character should be a letter (ITU RR 19.68)", check, "")
	case len(call) > 1 && strings.Trim(call[:2], digits) == "":
		return callsignError(call, "begins with two digits, and no series does (ITU RR 19.50)", check, "")
	default:
		return callsignError(call, "has no digit where an amateur callsign has it, after the first one or two characters (ITU RR 19.68)", check, "")
	}
}

// String returns the callsign.
func (c Callsign) String() string { return string(c) }

// MarshalText returns the callsign.
func (c Callsign) MarshalText() ([]byte, error) { return []byte(c), nil }

// UnmarshalText reads what ParseCallsign reads, and nothing as the zero value.
func (c *Callsign) UnmarshalText(text []byte) error { return unmarshalOptional(c, text, ParseCallsign) }
