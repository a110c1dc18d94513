package layout

import (
	"iter"
	"strings"

	"passband.example/plandiff/plan/tree"
)

// block reads a collection whose entries stand on lines of their own.
func (p *parser) block(n *Node, y tree.Node, pos int) (int, error) {
	n.Entries = make([]*Entry, 0, count(y))
	for key, value := range children(y) {
		e := p.newEntry()
		end, err := p.blockEntry(n, e, key, value, pos)
		if err != nil {
			return 0, err
		}
		n.Entries = append(n.Entries, e)
		pos = end
	}
	return pos, nil
}

// children gives the keys of a mapping with their values, and the items of a list
// with no key.
func children(y tree.Node) iter.Seq2[tree.Node, tree.Node] {
	if y.Kind() == tree.Mapping {
		return y.Pairs()
	}
	return func(yield func(key, value tree.Node) bool) {
		for item := range y.Items() {
			if !yield(tree.Node{}, item) {
				return
			}
		}
	}
}

func count(y tree.Node) int {
	n := 0
	for range children(y) {
		n++
	}
	return n
}

func (p *parser) blockEntry(n *Node, e *Entry, key, value tree.Node, pos int) (int, error) {
	var behind int // the colon or the hyphen
	if n.Kind == Mapping {
		start, err := p.offset(key)
		if err != nil {
			return 0, err
		}
		if start < pos {
			return 0, p.odd(start, "the layout of this line is not understood")
		}
		e.Lead = p.text[pos:start]
		if p.marked(e.Lead) {
			return 0, p.odd(start, "a key that is marked with ? cannot be kept")
		}
		var end int
		if e.Key, end, err = p.node(key, start, false); err != nil {
			return 0, err
		}
		n.indent = p.indentAt(start)
		pos = end
		behind = p.blanks(end)
		if !strings.HasPrefix(p.text[behind:], ":") {
			return 0, p.odd(end, "no colon is found behind this key")
		}
	} else {
		behind = p.skipComments(pos)
		if !strings.HasPrefix(p.text[behind:], "-") {
			return 0, p.odd(behind, "no hyphen is found before this item")
		}
		e.Lead = p.text[pos:behind]
		n.indent = p.indentAt(behind)
		pos = behind
	}
	return p.blockValue(e, value, pos, behind+1)
}

// marked reports whether a ? stands where only blanks and comments should.
func (p *parser) marked(lead string) bool {
	for line := range strings.SplitSeq(lead, "\n") {
		if strings.HasPrefix(strings.TrimLeft(line, " "), "?") {
			return true
		}
	}
	return false
}

// indentAt gives blanks up to the column of an offset.
func (p *parser) indentAt(at int) string {
	_, col := p.place(at)
	return strings.Repeat(" ", col-1)
}

// blockValue reads the value behind a key or a hyphen; sep begins at pos, and
// the sign itself ends at behind.
func (p *parser) blockValue(e *Entry, y tree.Node, pos, behind int) (int, error) {
	if isNothing(y) {
		line, col := p.place(behind)
		e.Sep, e.Value = p.text[pos:behind], &Node{Kind: Scalar, Line: line, Col: col, eol: p.eol}
		return p.trail(e, behind)
	}
	start, err := p.offset(y)
	if err != nil {
		return 0, err
	}
	if start < behind {
		return 0, p.odd(behind, "the layout of this line is not understood")
	}
	block := p.isBlock(y)
	if block {
		if y.IsAnchored() || start >= p.lineEnd(behind) {
			start = p.lineEnd(behind)
		}
	}
	e.Sep = p.text[pos:start]
	var end int
	if e.Value, end, err = p.node(y, start, block); err != nil {
		return 0, err
	}
	if block || y.Kind() == tree.Scalar && p.isText(p.behindAnchor(y, start)) {
		return end, nil // it ends with its last line
	}
	return p.trail(e, end)
}

// trail takes the rest of the line: blanks and a comment.
func (p *parser) trail(e *Entry, end int) (int, error) {
	next := p.lineEnd(end)
	rest := strings.TrimLeft(p.text[end:next], " \t")
	if rest = strings.TrimRight(rest, "\r\n"); rest != "" && rest[0] != '#' {
		return 0, p.odd(end, "what follows this value is not understood")
	}
	e.Trail = p.text[end:next]
	return next, nil
}

// skipComments gives the next offset that holds neither blanks nor a comment.
func (p *parser) skipComments(pos int) int {
	for pos < len(p.text) {
		switch c := p.text[pos]; {
		case isBlank(rune(c)):
			pos++
		case c == '#' && (pos == 0 || isBlank(rune(p.text[pos-1]))):
			pos = p.lineEnd(pos)
		case c == '-' && strings.HasPrefix(p.text[pos:], "---") && (pos == 0 || p.text[pos-1] == '\n'):
			pos += 3
		default:
			return pos
		}
	}
	return pos
}
