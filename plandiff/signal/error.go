package signal

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// Error says why a text is not the value it should be. Every parser of this
// package returns an *Error when it fails.
//
// Its parts always make one sentence of one shape: what is wrong; what to write
// instead. The text is untrusted: Error() quotes it, shortens it and escapes
// what could disturb a terminal.
type Error struct {
	Kind    string // the kind of value, as a person would call it: frequency
	Text    string // the text as it was given
	Problem string // what is wrong with it: has a decimal comma
	Instead string // what to write: write a point: 146.940
	Fix     string // the text that should stand there, where that is certain enough to offer; else empty
}

// Error returns, for example,
//
//	frequency "146,940" has a decimal comma; write a point: 146.940
func (e *Error) Error() string {
	return e.Kind + " " + quote(e.Text) + " " + e.Problem + "; " + e.Instead
}

// longestShown is how many bytes of a bad text an error shows.
const longestShown = 40

func quote(text string) string {
	if len(text) <= longestShown {
		return strconv.Quote(text)
	}
	cut := longestShown
	for cut > longestShown-utf8.UTFMax && !utf8.RuneStart(text[cut]) {
		cut--
	}
	return strconv.Quote(text[:cut]) + "..."
}

// isDigits tells whether text is made of one or more ASCII digits.
func isDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || '9' < text[i] {
			return false
		}
	}
	return text != ""
}

// upperASCII turns a-z into A-Z and nothing else: strings.ToUpper would turn
// letters of other scripts into ASCII ones and let them pass for a callsign.
func upperASCII(text string) string {
	return strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' {
			return r - 'a' + 'A'
		}
		return r
	}, text)
}
