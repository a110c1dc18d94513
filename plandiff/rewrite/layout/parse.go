package layout

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

const byteOrderMark = "\uFEFF"

// A ShapeError says that a text is written in a form that cannot be edited.
type ShapeError struct {
	Line int // from 1
	What string
}

// Error names the line and what stands there.
func (e *ShapeError) Error() string { return fmt.Sprintf("line %d: %s", e.Line, e.What) }

// Parse reads a text that holds at most one document. The error is that of
// yaml.v3 where the text is no YAML, or a ShapeError.
func Parse(data []byte) (d *Doc, err error) {
	defer func() {
		if r := recover(); r != nil { // yaml.v3 panics on a few malformed texts
			d, err = nil, fmt.Errorf("the text is not YAML: %v", r)
		}
	}()
	top, err := decode(data)
	if err != nil {
		return nil, err
	}
	d = &Doc{eol: "\n"}
	text := string(data)
	if rest, ok := strings.CutPrefix(text, byteOrderMark); ok {
		d.mark, text = true, rest
	}
	if i := strings.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		d.eol = "\r\n"
	}
	if text != "" && !strings.HasSuffix(text, "\n") {
		d.open = true
		text += d.eol
	}
	p := &parser{text: text, eol: d.eol, lines: lineStarts(text)}
	if err := p.document(d, top); err != nil {
		return nil, err
	}
	if !bytes.Equal(d.Bytes(), data) {
		return nil, &ShapeError{1, "the layout of this text is not understood"}
	}
	return d, nil
}

// decode gives the node that the text holds, or nil.
func decode(data []byte) (*yaml.Node, error) {
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var top, more yaml.Node
	switch err := dec.Decode(&top); {
	case errors.Is(err, io.EOF):
		return nil, nil
	case err != nil:
		return nil, err
	}
	switch err := dec.Decode(&more); {
	case err == nil:
		return nil, &ShapeError{more.Line, "a second document begins here"}
	case !errors.Is(err, io.EOF):
		return nil, err
	}
	if len(top.Content) == 0 || isNothing(top.Content[0]) {
		return nil, nil
	}
	return top.Content[0], nil
}

// isNothing reports whether a node takes no place in the text.
func isNothing(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Value == "" && y.Style == 0 && y.Anchor == ""
}

func lineStarts(text string) []int {
	starts := []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// A parser finds where in a text the nodes of yaml.v3 stand.
type parser struct {
	text  string
	eol   string
	lines []int // offset of each line
	at    mark  // the node asked for last
	seen  mark  // the place told last
}

func (p *parser) document(d *Doc, top *yaml.Node) error {
	if top == nil {
		d.Tail = p.text
		return nil
	}
	if !isBlock(top) {
		start, err := p.offset(top)
		if err != nil {
			return err
		}
		// A scalar or a flow collection: what stands before it hangs on its text.
		n, end, err := p.node(top, start)
		if err != nil {
			return err
		}
		n.open = p.text[:start] + n.open
		if n.Kind == Scalar || n.Kind == Alias {
			n.Text = p.text[:start] + n.Text
		}
		d.Root, d.Tail = n, p.text[end:]
		return nil
	}
	n, end, err := p.node(top, 0)
	if err != nil {
		return err
	}
	d.Root, d.Tail = n, p.text[end:]
	return nil
}

// offset gives the byte at which a node begins. Nodes of one line are asked for from
// left to right, so that a long line is walked once.
func (p *parser) offset(y *yaml.Node) (int, error) {
	if y.Line < 1 || y.Line > len(p.lines) {
		return 0, &ShapeError{y.Line, "the layout of this text is not understood"}
	}
	if y.Line != p.at.line || y.Column < p.at.col {
		p.at = mark{y.Line, 1, p.lines[y.Line-1]}
	}
	for ; p.at.col < y.Column; p.at.col++ {
		if p.at.offset >= len(p.text) {
			return 0, p.odd(p.at.offset, "the layout of this line is not understood")
		}
		_, size := utf8.DecodeRuneInString(p.text[p.at.offset:])
		p.at.offset += size
	}
	return p.at.offset, nil
}

// A mark is a place in the text as yaml.v3 counts it, and its offset.
type mark struct{ line, col, offset int }

// place gives line and column of an offset.
func (p *parser) place(at int) (line, col int) {
	line, found := slices.BinarySearch(p.lines, at)
	if found {
		line++
	}
	from := mark{line, 1, p.lines[line-1]}
	if p.seen.line == line && p.seen.offset <= at {
		from = p.seen
	}
	from.col += utf8.RuneCountInString(p.text[from.offset:at])
	from.offset = at
	p.seen = from
	return line, from.col
}

func (p *parser) odd(at int, what string) error {
	line, _ := p.place(min(at, len(p.text)))
	return &ShapeError{line, what}
}

func isBlock(y *yaml.Node) bool {
	return (y.Kind == yaml.MappingNode || y.Kind == yaml.SequenceNode) && y.Style&yaml.FlowStyle == 0
}

// node reads the node that stands at or behind pos; for a block collection pos is
// where the lines of its first entry begin.
func (p *parser) node(y *yaml.Node, pos int) (*Node, int, error) {
	n := &Node{Line: y.Line, Col: y.Column, eol: p.eol, Locked: y.Anchor != "" || y.Kind == yaml.AliasNode}
	if y.Style&yaml.TaggedStyle != 0 {
		return nil, 0, p.odd(pos, "a tag (!) cannot be kept")
	}
	var end int
	var err error
	switch {
	case y.Kind == yaml.AliasNode:
		n.Kind = Alias
		end = p.word(pos)
		n.Text = p.text[pos:end]
	case y.Kind == yaml.ScalarNode:
		end, err = p.scalar(n, y, pos)
	case y.Kind == yaml.MappingNode:
		n.Kind = Mapping
		end, err = p.collection(n, y, pos)
	case y.Kind == yaml.SequenceNode:
		n.Kind = Sequence
		end, err = p.collection(n, y, pos)
	default:
		err = p.odd(pos, "the layout of this text is not understood")
	}
	return n, end, err
}

func (p *parser) collection(n *Node, y *yaml.Node, pos int) (int, error) {
	if isBlock(y) {
		return p.block(n, y, pos)
	}
	n.Flow = true
	return p.flow(n, y, pos)
}
