package tree

import (
	"strings"
	"unicode/utf8"
)

// scalar reads a value or key on one line; flow says that it stands inside brackets.
func (s *scanner) scalar(flow bool) bool {
	at := s.mark()
	var value string
	plain, ok := false, false
	switch c := s.peek(0); c {
	case '"', '\'':
		value, ok = s.quoted(c)
	default:
		plain = true
		value, ok = s.plain(flow)
	}
	if !ok {
		return false
	}
	n := &s.tree.nodes[s.add(Scalar, at)]
	n.value = value
	if plain && isNull(value) {
		n.is = null
	}
	return true
}

// isNull reports whether a plain text means nothing (YAML 1.1, null language-independent type).
func isNull(text string) bool {
	switch text {
	case "~", "null", "Null", "NULL":
		return true
	}
	return false
}

// quoted reads a text in quotes in which no sign has a meaning of its own.
func (s *scanner) quoted(quote byte) (string, bool) {
	s.pos++
	from := s.pos
	for s.pos < len(s.text) {
		switch c := s.text[s.pos]; {
		case c == quote:
			s.pos++
			return s.text[from : s.pos-1], s.peek(0) != quote
		case c == '\\' && quote == '"' || !s.sign():
			return "", false
		}
	}
	return "", false
}

// plain reads a text without quotes, up to what ends it.
func (s *scanner) plain(flow bool) (string, bool) {
	if !s.begins() {
		return "", false
	}
	from, end := s.pos, s.pos
	for s.pos < len(s.text) {
		if n := letters(s.text[s.pos:]); n > 0 {
			s.pos += n
			end = s.pos
			continue
		}
		c := s.text[s.pos]
		if c == '\n' || c == ':' && (s.peek(1) == ' ' || s.peek(1) == '\n') || c == '#' && s.text[s.pos-1] == ' ' || flow && classes[c] == bracket {
			break
		}
		if flow && (c == '?' || c == ':' && classes[s.peek(1)] == bracket) || !s.sign() {
			return "", false
		}
		if c != ' ' {
			end = s.pos
		}
	}
	s.pos = end
	value := s.text[from:end]
	return value, value != "<<"
}

// letters counts the bytes at the beginning of a text that never mean anything.
func letters(text string) int {
	for i := range len(text) {
		if classes[text[i]] != letter {
			return i
		}
	}
	return len(text)
}

// begins reports whether a plain text can begin here. Some that YAML allows it
// leaves to yaml.v3.
func (s *scanner) begins() bool {
	c := s.peek(0)
	if classes[c] == letter && c != '-' && c != '.' {
		return true
	}
	if c == '-' {
		next := s.peek(1)
		return !s.divides() && (classes[next] == letter && next != '-')
	}
	return c > ' ' && !strings.ContainsRune("?:,[]{}#&*!|>'\"%@`", rune(c)) && !s.divides()
}

// sign steps over one character that may stand in a text: neither a control
// character nor one of the line ends and marks that only Unicode knows.
func (s *scanner) sign() bool {
	c := s.text[s.pos]
	if c < utf8.RuneSelf {
		s.pos++
		return c >= ' ' && c != 0x7F
	}
	r, size := utf8.DecodeRuneInString(s.text[s.pos:])
	s.pos += size
	s.wide += size - 1
	switch {
	case r == utf8.RuneError && size == 1, r < 0xA0, r == 0x2028, r == 0x2029, r == 0xFEFF, r == 0xFFFE, r == 0xFFFF:
		return false
	}
	return true
}

// A class is what a byte can be inside a plain text.
type class uint8

const (
	other   class = iota
	letter        // it never means anything
	bracket       // it ends a text inside brackets
)

var classes = [256]class{
	'a': letter, 'b': letter, 'c': letter, 'd': letter, 'e': letter, 'f': letter, 'g': letter, 'h': letter, 'i': letter,
	'j': letter, 'k': letter, 'l': letter, 'm': letter, 'n': letter, 'o': letter, 'p': letter, 'q': letter, 'r': letter,
	's': letter, 't': letter, 'u': letter, 'v': letter, 'w': letter, 'x': letter, 'y': letter, 'z': letter,
	'A': letter, 'B': letter, 'C': letter, 'D': letter, 'E': letter, 'F': letter, 'G': letter, 'H': letter, 'I': letter,
	'J': letter, 'K': letter, 'L': letter, 'M': letter, 'N': letter, 'O': letter, 'P': letter, 'Q': letter, 'R': letter,
	'S': letter, 'T': letter, 'U': letter, 'V': letter, 'W': letter, 'X': letter, 'Y': letter, 'Z': letter,
	'0': letter, '1': letter, '2': letter, '3': letter, '4': letter, '5': letter, '6': letter, '7': letter, '8': letter, '9': letter,
	'-': letter, '.': letter, '/': letter, '+': letter, '_': letter,
	',': bracket, '[': bracket, ']': bracket, '{': bracket, '}': bracket,
}
