package plan

import (
	"fmt"
	"strings"
	"unicode"
)

// How many characters a text and a note have at most.
const (
	maxText = 200
	maxNote = 4000
)

// parseText reads a text of one line that people will see on a display.
func parseText(text string) (string, error) {
	return visible(text, maxText, false)
}

// parseCell reads a text from a table, where a blank at the edge of a cell means
// nothing.
func parseCell(text string) (string, error) {
	return parseText(strings.TrimSpace(text))
}

// parseNote reads a text that may have several lines.
func parseNote(text string) (string, error) {
	return visible(strings.TrimRight(text, "\n"), maxNote, true)
}

// visible refuses what would not show, or would show as something else: control
// characters, and the direction marks that can make a text read backwards.
func visible(text string, most int, lines bool) (string, error) {
	n := 0
	for _, r := range text {
		n++
		switch {
		case ' ' <= r && r <= '~': // nearly all
		case r == '\n' && lines:
		case r == unicode.ReplacementChar:
			return "", fmt.Errorf("it holds bytes that are not UTF-8 text; save the file as UTF-8")
		case unicode.IsControl(r):
			return "", fmt.Errorf("it holds the control character %U, which no radio can show; take it out", r)
		case unicode.Is(unicode.Bidi_Control, r):
			return "", fmt.Errorf("it holds the direction mark %U, which can make a text read as another; take it out", r)
		case unseen(r):
			return "", fmt.Errorf("it holds the invisible character %U; take it out", r)
		}
	}
	if strings.TrimSpace(text) == "" {
		return "", fmt.Errorf("it is empty; write a text or leave the key out")
	}
	if n > most {
		return "", fmt.Errorf("it is %d characters long; the most that passband takes here is %d", n, most)
	}
	return text, nil
}

// unseen reports whether nobody would see r: line separators and format
// characters, but for the two joiners that some scripts and emoji need.
func unseen(r rune) bool {
	const joiner, nonJoiner = 0x200D, 0x200C
	return unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) && r != joiner && r != nonJoiner
}

// parseKey reads an identity: lower-case letters, digits and hyphens.
func parseKey(text string) (string, error) {
	ok := len(text) > 0 && len(text) <= 64 && text[0] != '-' && text[len(text)-1] != '-'
	for _, r := range text {
		ok = ok && ('a' <= r && r <= 'z' || '0' <= r && r <= '9' || r == '-')
	}
	if !ok {
		return "", fmt.Errorf("%q cannot be a key; a key has 1 to 64 lower-case letters, digits and hyphens", clip(text))
	}
	return text, nil
}

// clip shortens a hostile text for an error message.
func clip(s string) string {
	n := 0
	for i := range s {
		if n++; n > 60 {
			return s[:i] + "…"
		}
	}
	return s
}
