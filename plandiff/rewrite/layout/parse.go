package layout

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"passband.example/plandiff/plan/tree"
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
func Parse(data []byte) (*Doc, error) {
	return parseWhole(string(data))
}

func parseWhole(text string) (*Doc, error) {
	d, err := parse(text, 0)
	if err == nil && (d.String() != text || isLost(d.Root)) {
		return nil, &ShapeError{1, "the layout of this text is not understood"}
	}
	return d, err
}

// isLost reports whether the text of a value that holds no others was taken for what surrounds it.
func isLost(root *Node) bool {
	return root != nil && len(root.Entries) == 0 && strings.TrimSpace(root.String()) == ""
}

// parse reads a text that has lines above it.
func parse(data string, above int) (*Doc, error) {
	d := newDoc(data)
	top, err := decode(data, above)
	if err != nil {
		return nil, err
	}
	p := &parser{text: d.text, eol: d.eol, above: above, lines: lineStarts(d.text)}
	d.text = ""
	return d, p.document(d, top)
}

// newDoc gives the document of a text whose tree is still to be made.
func newDoc(text string) *Doc {
	d := &Doc{eol: "\n", size: len(text)}
	text, d.mark = strings.CutPrefix(text, byteOrderMark)
	if i := strings.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		d.eol = "\r\n"
	}
	if text != "" && !strings.HasSuffix(text, "\n") {
		d.open = true
		text += d.eol
	}
	d.text = text
	return d
}

// decode gives the node that a text holds, or none.
func decode(text string, above int) (tree.Node, error) {
	t, err := tree.Parse(strings.TrimPrefix(text, byteOrderMark), above+1)
	if err != nil {
		return tree.Node{}, err
	}
	if second, ok := t.Second(); ok {
		return tree.Node{}, &ShapeError{int(second.Line), "a second document begins here"}
	}
	if top := t.Root(); !top.IsZero() && !isNothing(top) {
		return top, nil
	}
	return tree.Node{}, nil
}

// isNothing reports whether a node takes no place in the text.
func isNothing(y tree.Node) bool {
	return y.Kind() == tree.Scalar && y.Value() == "" && y.IsNull() && !y.IsAnchored()
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

// A parser finds where in a text the nodes of its tree stand.
type parser struct {
	text  string
	eol   string
	above int   // lines above the text
	lines []int // offset of each line
	at    mark  // the node asked for last
	seen  mark  // the place told last

	nodes   []Node // that are still to be given out, made many at a time
	entries []Entry
}

func (p *parser) document(d *Doc, top tree.Node) error {
	if top.IsZero() {
		d.Tail = p.text
		return nil
	}
	if !p.isBlock(top) {
		start, err := p.offset(top)
		if err != nil {
			return err
		}
		// A scalar or a flow collection: what stands before it hangs on its text.
		n, end, err := p.node(top, start, false)
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
	n, end, err := p.node(top, 0, true)
	if err != nil {
		return err
	}
	d.Root, d.Tail = n, p.text[end:]
	return nil
}

// offset gives the byte at which a node begins. Nodes of one line are asked for from
// left to right, so that a long line is walked once.
func (p *parser) offset(y tree.Node) (int, error) {
	line, col := int(y.Mark().Line), int(y.Mark().Column)
	if line <= p.above || line > p.above+len(p.lines) {
		return 0, &ShapeError{line, "the layout of this text is not understood"}
	}
	if line != p.at.line || col < p.at.col {
		p.at = mark{line, 1, p.lines[line-p.above-1]}
	}
	for ; p.at.col < col; p.at.col++ {
		if p.at.offset >= len(p.text) {
			return 0, p.odd(p.at.offset, "the layout of this line is not understood")
		}
		_, size := utf8.DecodeRuneInString(p.text[p.at.offset:])
		p.at.offset += size
	}
	return p.at.offset, nil
}

// A mark is a place in the text, and its offset.
type mark struct{ line, col, offset int }

// place gives line and column of an offset.
func (p *parser) place(at int) (line, col int) {
	line, found := slices.BinarySearch(p.lines, at)
	if found {
		line++
	}
	from := mark{line + p.above, 1, p.lines[line-1]}
	line = from.line
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

// isBlock reports whether a node outside of brackets is a collection without them.
func (p *parser) isBlock(y tree.Node) bool {
	if y.Kind() != tree.Mapping && y.Kind() != tree.Sequence {
		return false
	}
	at, err := p.offset(y)
	if err != nil {
		return false
	}
	at = p.behindAnchor(y, at)
	return at >= len(p.text) || p.text[at] != '[' && p.text[at] != '{'
}

// node reads the node that stands at or behind pos; for a block collection pos is
// where the lines of its first entry begin. block says that it is one.
func (p *parser) node(y tree.Node, pos int, block bool) (*Node, int, error) {
	n := p.newNode(y)
	if _, tagged := y.Tag(); tagged {
		return nil, 0, p.odd(pos, "a tag (!) cannot be kept")
	}
	var end int
	var err error
	switch y.Kind() {
	case tree.Alias:
		n.Kind = Alias
		end = p.word(pos)
		n.Text = p.text[pos:end]
	case tree.Scalar:
		end, err = p.scalar(n, y, pos)
	case tree.Mapping:
		n.Kind = Mapping
		end, err = p.collection(n, y, pos, block)
	case tree.Sequence:
		n.Kind = Sequence
		end, err = p.collection(n, y, pos, block)
	default:
		err = p.odd(pos, "the layout of this text is not understood")
	}
	return n, end, err
}

// many is how many nodes and entries are made at a time.
const many = 64

func (p *parser) newEntry() *Entry {
	if len(p.entries) == 0 {
		p.entries = make([]Entry, many)
	}
	e := &p.entries[0]
	p.entries = p.entries[1:]
	return e
}

func (p *parser) newNode(y tree.Node) *Node {
	if len(p.nodes) == 0 {
		p.nodes = make([]Node, many)
	}
	n := &p.nodes[0]
	p.nodes = p.nodes[1:]
	*n = Node{Line: int(y.Mark().Line), Col: int(y.Mark().Column), eol: p.eol, Locked: y.IsAnchored() || y.Kind() == tree.Alias}
	return n
}

func (p *parser) collection(n *Node, y tree.Node, pos int, block bool) (int, error) {
	if block {
		return p.block(n, y, pos)
	}
	n.Flow = true
	return p.flow(n, y, pos)
}
