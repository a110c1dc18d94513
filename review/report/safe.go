package report

import (
	"strings"
	"unicode"
)

// Visible makes a text safe to show at all: what does not print is shown as its
// code point, so that no escape sequence, line break or direction mark gets
// through, and bytes that are no text are shown as such.
func Visible(s string) string {
	if strings.IndexFunc(s, hidden) < 0 && strings.ToValidUTF8(s, "") == s {
		return s
	}
	var b strings.Builder
	for _, r := range strings.ToValidUTF8(s, "\uFFFD") {
		switch {
		case r == '\n' || r == '\t':
			b.WriteByte(' ')
		case hidden(r):
			b.WriteString(codePoint(r))
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// hidden reports whether a character would not show, or would change how others do.
func hidden(r rune) bool {
	return !unicode.IsPrint(r) && r != ' ' || unicode.Is(unicode.Bidi_Control, r)
}

func codePoint(r rune) string {
	const digits = "0123456789ABCDEF"
	hex := ""
	for shift := 20; shift >= 0; shift -= 4 {
		if d := r >> shift & 15; d != 0 || hex != "" || shift < 16 {
			hex += string(digits[d])
		}
	}
	return "<U+" + hex + ">"
}
