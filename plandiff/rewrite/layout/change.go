package layout

import (
	"slices"
	"strings"
)

// NewScalar makes a value of a text.
func NewScalar(text string, flow bool) *Node {
	return &Node{Kind: Scalar, Value: text, Text: Quote(text, flow)}
}

// NewFlow makes an empty collection between brackets.
func NewFlow(kind Kind, eol string) *Node {
	n := &Node{Kind: kind, Flow: true, open: "{", close: "}", next: " ", eol: eol}
	if kind == Sequence {
		n.open, n.close = "[", "]"
	}
	return n
}

// NewBlock makes an empty collection whose entries will stand on lines of their
// own, behind indent. One without entries cannot be written.
func NewBlock(kind Kind, indent, eol string) *Node {
	return &Node{Kind: kind, indent: indent, eol: eol}
}

// Indent gives the indentation of the entries of a block collection.
func (n *Node) Indent() string { return n.indent }

// SetText gives a scalar another text, in the quotes that it has where they still
// serve. flow says that it stands between brackets. It reports whether it could:
// a Locked node stays as it is.
func (n *Node) SetText(text string, flow bool) bool {
	if n.Locked || n.Kind != Scalar {
		return false
	}
	lead := n.Text[:len(n.Text)-len(strings.TrimLeft(n.Text, " \t\r\n"))]
	old := n.Text[len(lead):]
	n.Value = text
	switch {
	case strings.HasPrefix(old, "'"):
		if quoted, ok := singleQuoted(text); ok {
			n.Text = lead + quoted
			return true
		}
	case strings.HasPrefix(old, `"`):
		n.Text = lead + doubleQuoted(text)
		return true
	}
	n.Text = lead + Quote(text, flow)
	return true
}

// IsText reports whether the node is written under | or >, on lines of its own.
func (n *Node) IsText() bool {
	return n.Kind == Scalar && (strings.HasPrefix(n.Text, "|") || strings.HasPrefix(n.Text, ">"))
}

// SetText gives the entry's value another text. One that is written on lines of
// its own stays so where it can, and else goes between quotes.
func (e *Entry) SetText(text string, flow bool) bool {
	v := e.Value
	if v.Locked || v.Kind != Scalar {
		return false
	}
	if !v.IsText() {
		if v.IsEmpty() && !strings.HasSuffix(e.Sep, " ") {
			e.Sep += " "
		}
		return v.SetText(text, flow)
	}
	header, rest, _ := strings.Cut(v.Text, "\n")
	comment := strings.TrimRight(strings.TrimLeft(header, "|>+-0123456789"), " \t\r")
	first := strings.TrimLeft(rest, " \r\n")
	before := rest[:len(rest)-len(first)]
	indent := before[strings.LastIndexByte(before, '\n')+1:]
	v.Value = text
	if lines, ok := literal(text, indent, v.eol); ok {
		v.Text = "|-" + comment + strings.TrimPrefix(lines, "|-")
		return true
	}
	v.Text = Quote(text, flow)
	e.Trail = comment + v.eol
	return true
}

// NewEntry makes an entry for n out of a key, or "" for an item, and a value.
func (n *Node) NewEntry(key string, value *Node) *Entry {
	e := &Entry{Value: value}
	if n.Kind == Mapping {
		e.Key = &Node{Kind: Scalar, Value: key, Text: Quote(key, n.Flow)}
		if key == "null" || key == "true" || key == "false" {
			e.Key.Text = key // a key is read as it is written
		}
		e.Sep = ": "
	} else if !n.Flow {
		e.Sep = "- "
	}
	if n.Flow {
		return e
	}
	e.Lead = n.indent
	switch {
	case value.Kind == Mapping && !value.Flow && n.Kind == Sequence:
		value.Entries[0].Lead = ""
	case (value.Kind == Mapping || value.Kind == Sequence) && !value.Flow:
		e.Sep = strings.TrimRight(e.Sep, " ") + n.eol
	default:
		e.Trail = n.eol
	}
	return e
}

// Insert puts an entry at index i.
func (n *Node) Insert(i int, e *Entry) {
	if !n.Flow && i > 0 { // nothing else has to give way
		if !strings.Contains(e.Lead, "\n") {
			e.Lead = n.indent
		}
		n.Entries = slices.Insert(n.Entries, i, e)
		return
	}
	n.Arrange(slices.Insert(slices.Clone(n.Entries), i, e))
}

// Remove takes an entry away, with the comment at the end of its line and those
// directly above it. What else stood above it stays.
func (n *Node) Remove(e *Entry) {
	i := n.Index(e)
	switch {
	case i < 0:
		return
	case n.Flow || n.isInline():
		n.Arrange(slices.Delete(slices.Clone(n.Entries), i, i+1))
		return
	}
	gap, _ := n.parted(i)
	if i+1 < len(n.Entries) {
		next, own := n.parted(i + 1)
		n.Entries[i+1].Lead = joinGaps(gap, next) + own + n.indent
	} else if strings.TrimSpace(gap) != "" { // blank lines part the last entry from nothing
		n.close = gap + n.close
	}
	n.Entries = slices.Delete(n.Entries, i, i+1)
}

// LineEnd gives the line end of the text that the node stands in.
func (n *Node) LineEnd() string { return n.eol }

// OnLines writes an entry's text of several lines under |, where that can be.
func (e *Entry) OnLines(text, indent string) {
	if lines, ok := literal(text, indent, e.Trail); ok {
		e.Value.Text, e.Trail = lines, ""
	}
}
