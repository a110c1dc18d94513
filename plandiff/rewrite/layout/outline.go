package layout

import (
	"slices"
	"strings"
)

// ParseRecords reads a text as Parse does, but leaves records closed until somebody
// asks for one: see Entry.Open. starts are the lines, sorted, on which records begin
// behind two blanks, as the reader of the plan found them. They say where a record
// ends without a look at what is in it. Where the text is not of the plain form of
// sections and records, all of it is read.
func ParseRecords(text string, starts []int32) (*Doc, error) {
	d := newDoc(text)
	o := &outliner{doc: d, starts: starts}
	if o.find() && o.put() {
		d.text = "" // it hangs on the entries
		return d, nil
	}
	return parseWhole(text)
}

// A stop is a line that begins a section or a record.
type stop struct {
	offset int
	line   int32
	record bool
}

// An outliner parts a text into sections and records, which begin at its stops.
type outliner struct {
	doc     *Doc
	starts  []int32
	stops   []stop
	pending string // what stands before the entry that comes next
}

// find finds the stops. It gives up where a value of one record could depend on
// another, or where a section begins with anything but a plain word.
func (o *outliner) find() bool {
	text := o.doc.text
	if strings.IndexByte(text, '&') >= 0 || strings.IndexByte(text, '\r') >= 0 {
		return false
	}
	o.stops = make([]stop, 0, len(o.starts)+16)
	line := int32(1)
	for pos := 0; pos < len(text); line++ {
		switch depth := depthAt(text, pos); {
		case depth == 0 && (text[pos] < 'a' || text[pos] > 'z'):
			return false
		case depth == 0:
			o.stops = append(o.stops, stop{pos, line, false})
		case depth > 0 && len(o.stops) == 0:
			return false
		case depth == 2:
			o.stops = append(o.stops, stop{pos, line, true})
		}
		pos += strings.IndexByte(text[pos:], '\n') + 1
	}
	return len(o.stops) > 0
}

// depthAt tells how far in a line begins, or -1 where it says nothing.
func depthAt(text string, pos int) int {
	at := pos
	for text[at] == ' ' {
		at++
	}
	if text[at] == '\n' || text[at] == '#' {
		return -1
	}
	return at - pos
}

// put makes the entries of all sections.
func (o *outliner) put() bool {
	root := &Node{Kind: Mapping, Line: int(o.stops[0].line), Col: 1, eol: o.doc.eol}
	o.pending = o.doc.text[:o.stops[0].offset]
	for i := 0; i < len(o.stops); {
		next := i + 1
		for next < len(o.stops) && o.stops[next].record {
			next++
		}
		e := o.section(i, next)
		if e == nil {
			return false
		}
		root.Entries = append(root.Entries, e)
		i = next
	}
	o.doc.Root, o.doc.Tail = root, o.pending
	return true
}

// offset gives where the stop i begins, or the end of the text.
func (o *outliner) offset(i int) int {
	if i < len(o.stops) {
		return o.stops[i].offset
	}
	return len(o.doc.text)
}

// section gives the entry of a section whose key is at the stop i, and whose records
// are at those up to next.
func (o *outliner) section(i, next int) *Entry {
	if o.known(i, next) {
		return o.records(i, next)
	}
	text := o.doc.text[o.offset(i):o.offset(next)]
	d, err := parse(text, int(o.stops[i].line)-1)
	if err != nil || d.String() != text || d.Root == nil || d.Root.Kind != Mapping || d.Root.Flow || len(d.Root.Entries) != 1 {
		return nil
	}
	e := d.Root.Entries[0]
	e.Lead, o.pending = o.pending, d.Tail
	return e
}

// known reports whether what looks like the records of a section is what the reader
// of the plan took for them, and the section's key stands alone on its line.
func (o *outliner) known(i, next int) bool {
	from, _ := slices.BinarySearch(o.starts, o.stops[i].line)
	starts := o.starts[from:]
	if next < len(o.stops) {
		to, _ := slices.BinarySearch(starts, o.stops[next].line)
		starts = starts[:to]
	}
	records := o.stops[i+1 : next]
	if len(records) == 0 || len(records) != len(starts) {
		return false
	}
	for j, r := range records {
		if r.line != starts[j] || keyAt(o.doc.text[r.offset+2:]) == "" {
			return false
		}
	}
	key := keyAt(o.doc.text[o.offset(i):])
	head, _, _ := strings.Cut(o.doc.text[o.offset(i)+len(key):], "\n")
	head = strings.TrimLeft(strings.TrimPrefix(head, ":"), " ")
	return key != "" && (head == "" || head[0] == '#')
}

// keyAt gives the plain key at the beginning of a text, or "".
func keyAt(text string) string {
	for i := range len(text) {
		switch c := text[i]; {
		case 'a' <= c && c <= 'z' || '0' <= c && c <= '9' || c == '-' && i > 0 || c == '_':
		case c == ':' && (text[i+1] == ' ' || text[i+1] == '\n'):
			return text[:i]
		default:
			return ""
		}
	}
	return ""
}

// records gives the entry of a section with its records closed. What could be no
// plain value, or end elsewhere than on its last line that says something, is read;
// and so is the last record, with which the section ends.
func (o *outliner) records(i, next int) *Entry {
	text, head := o.doc.text, o.stops[i]
	key := keyAt(text[head.offset:])
	from := head.offset + strings.IndexByte(text[head.offset:], '\n') + 1
	e := &Entry{Lead: o.pending, Key: o.key(key, head.line, 1), Sep: text[head.offset+len(key) : from]}
	n := &Node{Kind: Mapping, Line: int(o.stops[i+1].line), Col: 3, indent: "  ", eol: o.doc.eol}
	n.Entries = make([]*Entry, 0, next-i-1)
	keys, entries := make([]Node, next-i-1), make([]Entry, next-i-1)
	for j := i + 1; j < next; j++ {
		at := o.stops[j]
		r := &entries[j-i-1]
		r.Key = &keys[j-i-1]
		*r.Key = *o.key(keyAt(text[at.offset+2:]), at.line, 3)
		r.Lead = text[from : at.offset+2]
		lines := text[at.offset:o.offset(j+1)]
		end := lastWords(lines)
		r.closed = lines[:end]
		if r.isOdd(end < len(lines)) {
			if end = r.whole(lines); end < 0 {
				return nil
			}
		} else if j == next-1 && r.whole(r.closed) != end {
			return nil
		}
		from = at.offset + end
		n.Entries = append(n.Entries, r)
	}
	e.Value, o.pending = n, text[from:o.offset(next)]
	return e
}

func (o *outliner) key(text string, line int32, col int) *Node {
	return &Node{Kind: Scalar, Line: int(line), Col: col, Text: text, Value: text, eol: o.doc.eol}
}

// lastWords gives the end of the last line that is neither blank nor a comment.
func lastWords(lines string) int {
	for end := len(lines); ; {
		start := strings.LastIndexByte(lines[:end-1], '\n') + 1
		if start == 0 || depthAt(lines, start) >= 0 {
			return end
		}
		end = start
	}
}

// isOdd reports whether a record must be read to know where it ends, or whether it
// can be laid out at all: in a text over several lines, what looks like a comment is none.
func (e *Entry) isOdd(more bool) bool {
	return strings.ContainsAny(e.closed, "|>?") || more && strings.ContainsAny(e.closed, `'"\`)
}

// whole opens a record that stands on the first of these lines, and gives where it
// ends, or -1 where it is not understood.
func (e *Entry) whole(lines string) int {
	e.closed = lines
	end, err := e.read()
	if err != nil || lastWords(lines) > end {
		return -1
	}
	e.closed = ""
	return end
}

// IsClosed reports whether the entry is still to be opened.
func (e *Entry) IsClosed() bool { return e.closed != "" }

// MayHold reports whether the word stands in the entry; of one that is open it may.
func (e *Entry) MayHold(word string) bool {
	return e.closed == "" || strings.Contains(e.behind(), word)
}

// Open reads what stands behind the key of an entry that ParseRecords left closed:
// Sep, Value and Trail are not there before. An entry that is open stays as it is.
// One that cannot be read is Locked: that can be only where the reader of the plan
// found other records than there are.
func (e *Entry) Open() *Entry {
	if e.closed == "" {
		return e
	}
	if end, err := e.read(); err != nil || end != len(e.closed) {
		e.Sep, e.Trail = ":", ""
		e.Value = &Node{Kind: Scalar, Locked: true, Line: e.Key.Line, Col: e.Key.Col, Text: e.behind()[1:], eol: e.Key.eol}
	}
	e.closed = ""
	return e
}

// behind gives what stands behind the key of a closed entry.
func (e *Entry) behind() string { return e.closed[strings.IndexByte(e.closed, ':'):] }

// read reads what stands behind the key of a closed entry, and tells where that ends.
func (e *Entry) read() (int, error) {
	above := e.Key.Line - 1
	root, err := decode(e.closed, above)
	if err != nil || root.IsZero() {
		return 0, err
	}
	p := &parser{text: e.closed, eol: e.Key.eol, above: above, lines: lineStarts(e.closed)}
	for _, value := range children(root) {
		colon := strings.IndexByte(e.closed, ':')
		return p.blockValue(e, value, colon, colon+1)
	}
	return 0, p.odd(0, "no record is found on this line")
}
