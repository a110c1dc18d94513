package layout

import "strings"

// Kind is the shape of a node.
type Kind uint8

// The kinds.
const (
	Scalar   Kind = iota + 1
	Mapping       // keys with values
	Sequence      // a list
	Alias         // a repetition of another node: *name
)

// A Node is a value and the text that it is written in.
type Node struct {
	Kind    Kind
	Flow    bool // between brackets, rather than on lines of its own
	Locked  bool // it has an anchor, or repeats another node
	Line    int  // from 1
	Col     int  // from 1, in characters
	Text    string
	Value   string // of a scalar: what it says
	Entries []*Entry

	open, close string // a flow collection's brackets, with the blanks before the closing one
	lastComma   bool   // the last entry between brackets has a comma
	indent      string // of the entries of a block collection
	eol         string // how a line ends here: "\n" or "\r\n"
	first, next string // what stood before the first entry between brackets, and before the others
}

// An Entry is a key with its value, or an item of a list.
type Entry struct {
	Lead  string // what stands before it: blank lines, comments, the indentation
	Key   *Node  // nil for an item of a list
	Sep   string // between key and value: ": "; before an item: "- "
	Value *Node
	Comma string // between brackets: what leads to the comma, and the comma
	Trail string // what follows on the line; in a block its line end too

	closed string // its lines, as long as nobody has opened it
}

// Name gives the key of an entry, "" for an item.
func (e *Entry) Name() string {
	if e.Key == nil {
		return ""
	}
	return e.Key.Value
}

// IsEmpty reports whether nothing stands where a value could: "zones:" alone.
func (n *Node) IsEmpty() bool { return n.Kind == Scalar && n.Text == "" }

// Find gives the entry of a mapping with this key, opened, or nil.
func (n *Node) Find(key string) *Entry {
	if n == nil || n.Kind != Mapping {
		return nil
	}
	for _, e := range n.Entries {
		if e.Name() == key {
			return e.Open()
		}
	}
	return nil
}

// Index gives the place of an entry in n, from 0, or -1.
func (n *Node) Index(e *Entry) int {
	for i := range n.Entries {
		if n.Entries[i] == e {
			return i
		}
	}
	return -1
}

// String gives the text of the node.
func (n *Node) String() string {
	var b strings.Builder
	n.write(&b)
	return b.String()
}

func (n *Node) write(b *strings.Builder) {
	switch {
	case n == nil:
		return
	case n.Kind == Scalar || n.Kind == Alias:
		b.WriteString(n.Text)
		return
	}
	b.WriteString(n.open)
	for _, e := range n.Entries {
		e.write(b)
	}
	b.WriteString(n.close)
}

// String gives the text of the entry, with what stands before and behind it.
func (e *Entry) String() string {
	var b strings.Builder
	e.write(&b)
	return b.String()
}

func (e *Entry) write(b *strings.Builder) {
	b.WriteString(e.Lead)
	e.Key.write(b)
	e.writeBehind(b)
}

func (e *Entry) writeBehind(b *strings.Builder) {
	if e.closed != "" {
		b.WriteString(e.behind())
		return
	}
	b.WriteString(e.Sep)
	e.Value.write(b)
	b.WriteString(e.Comma)
	b.WriteString(e.Trail)
}

// textBehind gives what stands behind the key of an entry.
func (e *Entry) textBehind() string {
	var b strings.Builder
	e.writeBehind(&b)
	return b.String()
}

// A Doc is a text with the tree of its values.
type Doc struct {
	Root *Node // nil where the text holds no value
	Tail string

	mark bool // the text began with a byte order mark
	open bool // the last line had no line end
	eol  string
	text string // as long as there is no tree
	size int    // of the text that was parsed
}

// Bytes gives the text.
func (d *Doc) Bytes() []byte { return []byte(d.String()) }

// String gives the text.
func (d *Doc) String() string {
	var b strings.Builder
	b.Grow(d.size + d.size/16)
	if d.mark {
		b.WriteString(byteOrderMark)
	}
	d.Root.write(&b)
	b.WriteString(d.Tail)
	text := b.String()
	if d.open {
		text = strings.TrimSuffix(strings.TrimSuffix(text, "\n"), "\r")
	}
	return text
}

// LineEnd gives the line end of the text.
func (d *Doc) LineEnd() string { return d.eol }

// lines counts the line ends behind the key.
func (e *Entry) lines() int {
	if e.closed != "" {
		return strings.Count(e.closed, "\n")
	}
	return strings.Count(e.Sep, "\n") + e.Value.lineEnds() + strings.Count(e.Trail, "\n")
}

func (n *Node) lineEnds() int {
	if len(n.Entries) == 0 {
		return strings.Count(n.String(), "\n")
	}
	count := strings.Count(n.open, "\n") + strings.Count(n.close, "\n")
	for _, e := range n.Entries {
		count += strings.Count(e.Lead, "\n") + e.lines() + strings.Count(e.Comma, "\n")
		if e.Key != nil {
			count += strings.Count(e.Key.Text, "\n")
		}
	}
	return count
}
