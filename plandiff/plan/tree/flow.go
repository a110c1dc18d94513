package tree

import "strings"

// flow reads a list or a mapping between brackets.
func (s *scanner) flow() bool {
	kind, end := Sequence, byte(']')
	if s.text[s.pos] == '{' {
		kind, end = Mapping, '}'
	}
	at, ok := s.enter(kind)
	s.tree.nodes[at].is = flow
	s.pos++
	if !ok || !s.gap() {
		return false
	}
	for s.peek(0) != end {
		if kind == Mapping && !(s.scalar(true) && s.colon() && s.gap()) {
			return false
		}
		if !s.inner() || !s.gap() {
			return false
		}
		if s.peek(0) == ',' {
			s.pos++
			if !s.gap() || s.peek(0) == end {
				return false
			}
		} else if s.peek(0) != end {
			return false
		}
	}
	s.pos++
	return s.leave(at)
}

// inner reads a value inside brackets.
func (s *scanner) inner() bool {
	if c := s.peek(0); c == '{' || c == '[' {
		return s.flow()
	}
	return s.scalar(true)
}

// gap skips blanks and line ends inside brackets.
func (s *scanner) gap() bool {
	for s.pos < len(s.text) {
		switch s.text[s.pos] {
		case ' ':
			s.pos++
		case '\n':
			s.newline()
		default:
			return true
		}
	}
	return false
}

// divides reports whether a line that begins here would divide documents.
func (s *scanner) divides() bool {
	return s.pos == s.start && (strings.HasPrefix(s.text[s.pos:], "---") || strings.HasPrefix(s.text[s.pos:], "..."))
}
