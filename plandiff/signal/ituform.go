package signal

import (
	"regexp"
	"strings"
	"sync"
)

// What an amateur call begins with by ITU Radio Regulations 19.68: one of the letters that
// are a series alone and a digit, or two characters and a digit.
const callBeginning = `^(?:[BFGIKMNRW][0-9]|(?:[A-Z]{2}|[A-Z][0-9]|[0-9][A-Z])[0-9])`

// The forms of 19.68, of 19.68.1 for series that two countries share, and of 19.68A for
// special occasions.
var (
	generalForm    = lazyRegexp(callBeginning + `[A-Z0-9]{0,3}[A-Z]$`)
	halfSeriesForm = lazyRegexp(`^(?:3D|SS)[A-Z][0-9][A-Z0-9]{0,2}[A-Z]$`)
	specialForm    = lazyRegexp(callBeginning + `[A-Z0-9]{4,}[A-Z]$`)
)

func lazyRegexp(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}

// ITUForm returns nil if the callsign has the form of an amateur station's in the ITU
// Radio Regulations, 19.68 and 19.68.1, and otherwise an *Error that says what differs.
// That deserves a warning and no more: countries do assign calls of other forms.
func (c Callsign) ITUForm() error {
	call := string(c)
	if generalForm().MatchString(call) || halfSeriesForm().MatchString(call) {
		return nil
	}
	problem := "has no digit after its first one or two characters (ITU RR 19.68)"
	switch {
	case specialForm().MatchString(call):
		problem = "has more than four characters after its digit, as for special occasions (ITU RR 19.68A)"
	case strings.TrimRight(call, numerals) != call:
		problem = "ends in a digit, not in a letter (ITU RR 19.68)"
	case len(call) > 1 && isDigits(call[:2]):
		problem = "begins with two digits, as no series does (ITU RR 19.50)"
	}
	return callsignError(call, problem, "check it against the license: some countries do assign such calls", "")
}
