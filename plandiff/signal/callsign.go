package signal

import "strings"

// Callsign is the call sign of a station in capitals, without what operators add behind
// a slash. The zero value stands for one that is not given.
type Callsign string

const (
	shortestCallsign = 3
	longestCallsign  = 10
	writeCallsign    = "write letters and digits alone, as in N0QRV"
)

const (
	capitals = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	numerals = "0123456789"
)

// ParseCallsign reads a call sign and puts it in capitals. It refuses only what cannot be
// one: other characters than A to Z and 0 to 9, fewer than three or more than ten of
// them, no letter, no digit. Some countries assign calls outside the form of the Radio
// Regulations, so ITUForm checks that apart.
func ParseCallsign(text string) (Callsign, error) {
	upper := upperASCII(text)
	if !couldBeCallsign(upper) {
		return "", explainCallsign(text, upper)
	}
	return Callsign(upper), nil
}

func couldBeCallsign(upper string) bool {
	return len(upper) >= shortestCallsign && len(upper) <= longestCallsign &&
		!strings.ContainsFunc(upper, notPlain) &&
		strings.ContainsAny(upper, capitals) && strings.ContainsAny(upper, numerals)
}

func notPlain(r rune) bool { return !strings.ContainsRune(capitals+numerals, r) }

func callsignError(text, problem, instead, fix string) error {
	return &Error{Kind: "callsign", Text: text, Problem: problem, Instead: instead, Fix: fix}
}

// explainCallsign finds the likeliest reason why upper, which is text in capitals, is not a
// callsign.
func explainCallsign(text, upper string) error {
	trimmed := strings.TrimSpace(upper)
	switch {
	case trimmed == "":
		return callsignError(text, "is empty", writeCallsign, "")
	case len(upper) > longestShown:
		return callsignError(text, "is too long", writeCallsign, "")
	case trimmed != upper:
		return offerCallsign(text, "has a space around it", "write it without:", trimmed)
	case strings.ContainsAny(upper, "/-"):
		return offerCallsign(text, "has an addition that is operating practice, not part of the call",
			"write the call alone:", longestPart(upper))
	case strings.ContainsAny(upper, slashedZeros):
		return offerCallsign(text, "has a slashed zero", "write a plain one:", plainZeros(upper))
	case strings.ContainsFunc(upper, notPlain):
		return callsignError(text, "has characters that are not A to Z or 0 to 9", writeCallsign, "")
	case len(upper) < shortestCallsign:
		return callsignError(text, "has fewer than three characters", writeCallsign, "")
	case len(upper) > longestCallsign:
		return callsignError(text, "has more than ten characters", writeCallsign, "")
	case !strings.ContainsAny(upper, capitals):
		return callsignError(text, "has no letter", writeCallsign, "")
	default:
		return noDigit(text, upper)
	}
}

// offerCallsign makes an error with the candidate as its fix if that could be a callsign.
func offerCallsign(text, problem, instead, candidate string) error {
	if couldBeCallsign(candidate) {
		return callsignError(text, problem, instead+" "+candidate, candidate)
	}
	return callsignError(text, problem, writeCallsign, "")
}

// longestPart returns the call of DL/N0QRV/P: what stands around it is shorter.
func longestPart(upper string) (longest string) {
	for part := range strings.FieldsFuncSeq(upper, func(r rune) bool { return r == '/' || r == '-' }) {
		if len(part) > len(longest) {
			longest = part
		}
	}
	return longest
}

const slashedZeros = "\u00d8\u00f8\u2205"

func plainZeros(upper string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(slashedZeros, r) {
			return '0'
		}
		return r
	}, upper)
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

// String returns the callsign.
func (c Callsign) String() string { return string(c) }

// MarshalText returns the callsign.
func (c Callsign) MarshalText() ([]byte, error) { return []byte(c), nil }

// UnmarshalText reads what ParseCallsign reads, and nothing as the zero value.
func (c *Callsign) UnmarshalText(text []byte) error { return unmarshalOptional(c, text, ParseCallsign) }
