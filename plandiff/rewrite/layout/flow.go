package layout

import (
	"strings"

	"passband.example/plandiff/plan/tree"
)

// flow reads a collection between brackets.
func (p *parser) flow(n *Node, y tree.Node, pos int) (int, error) {
	at := p.behindAnchor(y, pos)
	if at >= len(p.text) || p.text[at] != '[' && p.text[at] != '{' {
		return 0, p.odd(pos, "a pair without braces around it cannot be kept; write {key: value}")
	}
	n.open = p.text[pos : at+1]
	pos = at + 1
	n.Entries = make([]*Entry, 0, count(y))
	for key, value := range children(y) {
		e := p.newEntry()
		end, err := p.flowEntry(e, key, value, pos)
		if err != nil {
			return 0, err
		}
		n.Entries = append(n.Entries, e)
		n.lastComma = e.Comma != ""
		pos = end
	}
	end := p.skipComments(pos)
	if end >= len(p.text) || p.text[end] != ']' && p.text[end] != '}' {
		return 0, p.odd(pos, "no closing bracket is found here")
	}
	n.close = p.text[pos : end+1]
	n.remember()
	return end + 1, nil
}

// remember keeps what stands before entries, for those that come later.
func (n *Node) remember() {
	n.next = " "
	if len(n.Entries) > 0 {
		n.first = n.Entries[0].Lead
	}
	if len(n.Entries) < 2 {
		if n.first != "" && strings.Contains(n.first, "\n") {
			n.next = blanksOf(n.first)
		}
		return
	}
	lines := 0
	for _, e := range n.Entries[1:] {
		if strings.Contains(e.Lead, "\n") {
			lines++
			n.next = blanksOf(e.Lead)
		}
	}
	if lines < len(n.Entries)-1 { // some share a line, as what comes will
		n.next = " "
		if lead := n.Entries[len(n.Entries)-1].Lead; !strings.Contains(lead, "\n") {
			n.next = lead
		}
	}
}

// blanksOf gives a lead without its comments and blank lines.
func blanksOf(lead string) string {
	i := strings.LastIndexByte(lead, '\n')
	if i > 0 && lead[i-1] == '\r' {
		return "\r\n" + lead[i+1:]
	}
	if i >= 0 {
		return lead[i:]
	}
	return lead
}

func (p *parser) flowEntry(e *Entry, key, y tree.Node, pos int) (int, error) {
	start := p.skipComments(pos)
	e.Lead = p.text[pos:start]
	if strings.HasPrefix(p.text[start:], "?") && start+1 < len(p.text) && isBlank(rune(p.text[start+1])) {
		return 0, p.odd(start, "a key that is marked with ? cannot be kept")
	}
	end := start
	var err error
	if !key.IsZero() {
		if e.Key, end, err = p.node(key, start, false); err != nil {
			return 0, err
		}
		start = end
		if colon := p.skipComments(end); strings.HasPrefix(p.text[colon:], ":") {
			end = colon + 1
		}
	}
	if isNothing(y) {
		line, col := p.place(end)
		e.Value = &Node{Kind: Scalar, Line: line, Col: col, eol: p.eol}
		e.Sep = p.text[start:end]
		return p.comma(e, end), nil
	}
	at := p.skipComments(end)
	if real, err := p.offset(y); err != nil || real != at {
		return 0, p.odd(at, "a pair without braces around it cannot be kept; write {key: value}")
	}
	e.Sep = p.text[start:at]
	if e.Value, end, err = p.node(y, at, false); err != nil {
		return 0, err
	}
	return p.comma(e, end), nil
}

// comma takes the comma behind an entry, and a comment at the end of the line.
func (p *parser) comma(e *Entry, end int) int {
	if at := p.skipComments(end); at < len(p.text) && p.text[at] == ',' {
		e.Comma = p.text[end : at+1]
		end = at + 1
	}
	at := p.blanks(end)
	if at < len(p.text) && p.text[at] == '#' && at > end {
		stop := end + len(strings.TrimRight(p.text[end:p.lineEnd(at)], "\r\n"))
		e.Trail = p.text[end:stop]
		return stop
	}
	return end
}
