package tree

import "strings"

// deepest is how many collections the scanner follows inside one another. A plan
// needs five.
const deepest = 50

// A scanner reads the part of YAML that the package comment names. Its methods
// report whether they could; the first that could not ends the scan.
type scanner struct {
	tree   *Tree
	text   string
	pos    int
	line   int32 // of pos
	start  int   // offset of the line
	wide   int   // bytes of the line before pos that begin no character
	indent int   // of the line that follows, or -1 at the end: see down
	depth  int
}

// scan reads a text whose first line has the number line, if it is of the part of
// YAML that the scanner knows.
func scan(text string, line int) (*Tree, bool) {
	s := &scanner{text: text, line: int32(line), tree: &Tree{text: text}}
	s.tree.nodes = spare(2*strings.Count(text, ":") + strings.Count(text, ",")/2 + 1)
	if !s.down() {
		return nil, false
	}
	if s.indent < 0 {
		return s.tree, true
	}
	ok := s.block() && s.indent < 0
	return s.tree, ok
}

// peek gives the byte that is n ahead, or a line end at the end of the text.
func (s *scanner) peek(n int) byte {
	if s.pos+n < len(s.text) {
		return s.text[s.pos+n]
	}
	return '\n'
}

func (s *scanner) mark() Mark { return Mark{s.line, int32(s.pos - s.start - s.wide + 1)} }

// add puts a node that begins at mark into the tree.
func (s *scanner) add(kind Kind, at Mark) int32 {
	i := int32(len(s.tree.nodes))
	s.tree.nodes = append(s.tree.nodes, node{kind: kind, line: at.Line, column: at.Column, end: i + 1})
	return i
}

// null puts in the node of a value that is not written.
func (s *scanner) null(at Mark) { s.tree.nodes[s.add(Scalar, at)].is = null }

// enter and leave put a collection around what is read between them.
func (s *scanner) enter(kind Kind) (int32, bool) {
	s.depth++
	return s.add(kind, s.mark()), s.depth <= deepest
}

func (s *scanner) leave(i int32) bool {
	s.depth--
	s.tree.nodes[i].end = int32(len(s.tree.nodes))
	return true
}

func (s *scanner) blanks() {
	for s.peek(0) == ' ' {
		s.pos++
	}
}

// newline goes to the next line. It stands on the end of this one.
func (s *scanner) newline() {
	s.pos++
	s.line++
	s.start, s.wide = s.pos, 0
}

// down goes to the next line that says something, past the rest of this one, on
// which nothing but blanks and a comment may stand.
func (s *scanner) down() bool {
	for {
		from := s.pos
		s.blanks()
		switch {
		case s.pos >= len(s.text):
			s.indent = -1
			return true
		case s.text[s.pos] == '\n':
			s.newline()
			continue
		case s.text[s.pos] == '#' && (s.pos > from || s.pos == s.start):
			if !s.comment() {
				return false
			}
		case from == s.start:
			s.indent = s.pos - s.start
			return true
		default:
			return false
		}
	}
}

// comment skips a comment up to the end of its line.
func (s *scanner) comment() bool {
	for s.pos < len(s.text) && s.text[s.pos] != '\n' {
		if !s.sign() {
			return false
		}
	}
	return true
}
