package report

import (
	"fmt"
	"strings"
	"unicode"
)

// Visible makes a text safe to show at all: what does not print is shown as its
// code point, so that no escape sequence, direction mark or invisible letter gets
// through; line ends and tabs become spaces, and bytes that are no text are shown
// as such.
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
			fmt.Fprintf(&b, "<%U>", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// hidden reports whether a character would not show, or would change how others
// do. Some letters are drawn as nothing (Unicode, Default_Ignorable_Code_Point).
func hidden(r rune) bool {
	return !unicode.IsPrint(r) || unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r)
}
