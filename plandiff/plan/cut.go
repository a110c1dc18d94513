package plan

import (
	"bytes"
	"slices"
	"sort"

	"passband.example/plandiff/plan/tree"
)

// A piece is some whole lines of a file that can be read alone: a record of a section in
// block form, or a frame, which is a key at the top with all that is no such record. Before
// and behind each piece a reader of the whole file stands at the top or between two records,
// with nothing open, so that another piece may stand there instead.
type piece struct {
	kind   Kind  // of the record; 0 for a frame
	indent int32 // blanks before the key of the record, the same in all of its section
	start  int32 // offset of its first line
	line   int32 // the number of that
	first  int32 // how many records stand before it
}

// cut gives the pieces of the file, or none where it is not sure that they can be read
// alone.
func (f *File) cut() []piece {
	if len(f.problems) > 0 || f.lost || f.aliased > 0 || len(f.records) == 0 || TableOf(f.name) != nil || mayAnchor(f.data) {
		return nil
	}
	var pieces []piece
	for c := (cutting{data: f.data, line: 1}); c.next(); {
		pieces = append(pieces, c.piece)
	}
	records := 0
	for i := range pieces {
		p := &pieces[i]
		p.first = int32(records)
		end := int32(len(f.data)) // no line has that number
		if i+1 < len(pieces) {
			end = pieces[i+1].line
		}
		for records < len(f.records) && f.records[records].Place().Line < end {
			records++
		}
		if p.kind != 0 && !f.begins(*p, records) {
			return nil
		}
	}
	for i, p := range pieces {
		if i+1 < len(pieces) && pieces[i+1].kind != 0 {
			continue // a record is known to begin behind it
		}
		n := len(f.records) - int(p.first)
		if i+1 < len(pieces) {
			n = int(pieces[i+1].first - p.first)
		}
		if a, ok := f.alone(p, textIn(f.data, pieces, i)); !ok || len(a.records) != n {
			return nil
		}
	}
	return pieces
}

// begins reports whether a piece is exactly the record that the whole file has there;
// before is how many records stand before its end.
func (f *File) begins(p piece, before int) bool {
	if before != int(p.first)+1 {
		return false
	}
	r := f.records[p.first]
	at := r.Place()
	return at.Line == p.line && at.Col == p.indent+1 && r.Thing().Kind == p.kind
}

// mayAnchor reports whether a text may have an anchor, by which another place could
// repeat what stands there.
func mayAnchor(text []byte) bool {
	for i := range text {
		if text[i] == '&' && (i == 0 || bytes.IndexByte([]byte(" \t\n[{,"), text[i-1]) >= 0) {
			return true
		}
	}
	return false
}

// textIn gives the text of a piece.
func textIn(data []byte, pieces []piece, i int) []byte {
	if i+1 < len(pieces) {
		return data[pieces[i].start:pieces[i+1].start]
	}
	return data[pieces[i].start:]
}

// A cutting cuts a text in pieces, by the looks of its lines alone.
type cutting struct {
	data    []byte
	at      int  // where the next piece begins
	line    int  // the number of that line
	section Kind // what the records are that stand in this section; 0 where none do
	indent  int  // blanks before their keys; 0 before the first
	piece   piece
}

// next goes on to the next piece, if there is one.
func (c *cutting) next() bool {
	if c.at >= len(c.data) {
		return false
	}
	c.piece = piece{kind: c.section, indent: int32(c.indent), start: int32(c.at), line: int32(c.line)}
	if line := c.data[c.at:]; line[0] != ' ' || c.at == 0 {
		c.piece.kind, c.piece.indent = 0, 0
		c.section, c.indent = headed(line), 0
	}
	for c.at < len(c.data) {
		c.at += lineLength(c.data[c.at:])
		c.line++
		if c.begins(c.data[c.at:]) {
			break
		}
	}
	return true
}

// begins reports whether a piece begins with the line that a text begins with.
func (c *cutting) begins(text []byte) bool {
	blanks := 0
	for blanks < len(text) && text[blanks] == ' ' {
		blanks++
	}
	switch {
	case len(text) == 0:
		return true
	case blanks == len(text) || text[blanks] == '\n' || text[blanks] == '\r' || text[blanks] == '#':
		return false
	case blanks == 0:
		return true
	case c.section == 0 || text[blanks] == '-' || text[blanks] == '\t':
		return false
	case c.indent == 0:
		c.indent = blanks
	}
	return blanks == c.indent
}

// headed gives the kind of the section whose key stands alone on the line that a text begins
// with, or 0 where none does that has its records as a mapping at the top of a file.
func headed(text []byte) Kind {
	key, rest, _ := bytes.Cut(text[:lineLength(text)], []byte(":"))
	if rest = bytes.TrimSpace(rest); len(rest) > 0 && rest[0] != '#' {
		return 0
	}
	for _, s := range sections() {
		if s.Key != "" && s.Key == string(key) && s.under == "" && !s.listed {
			return s.Kind
		}
	}
	return 0
}

func lineLength(text []byte) int {
	if n := bytes.IndexByte(text, '\n'); n >= 0 {
		return n + 1
	}
	return len(text)
}

// alone reads the text of a piece that stands at the place of p, without the rest of the
// file. It reports whether nothing is wrong with it, and nothing in it has to do with what
// is elsewhere.
func (f *File) alone(p piece, text []byte) (*loader, bool) {
	l := &loader{plan: new(Plan), file: f.name}
	text = bytes.Clone(text) // a record must not keep the whole file in memory
	if _, ok := l.clean(text); !ok || mayAnchor(text) {
		return nil, false
	}
	if p.kind == 0 {
		l.readYAML(text, int(p.line))
		return l, len(l.plan.Problems) == 0 && !lostIn(l.records)
	}
	t, err := tree.Parse(textOf(text), int(p.line))
	if err != nil {
		return nil, false
	}
	if _, second := t.Second(); second || t.Root().IsZero() {
		return nil, false
	}
	l.members(SectionOf(p.kind), t.Root())
	ok := len(l.plan.Problems) == 0 && len(l.records) == 1 && l.records[0].Place().Line == p.line
	return l, ok && !lostIn(l.records)
}

// lostIn reports whether a split of these records leads to no frequency.
func lostIn(records []Record) bool {
	return slices.ContainsFunc(records, func(r Record) bool { rep, ok := r.(*Repeater); return ok && rep.splitLost() })
}

// exact gives a record of the file with the places that it has in this version of it.
func (f *File) exact(i int) Record {
	r := f.records[i]
	if !f.shifted {
		return r
	}
	pieces := f.pieces()
	at := sort.Search(len(pieces), func(k int) bool { return int(pieces[k].first) > i }) - 1
	if p := pieces[at]; p.kind != 0 && r.Place().Line != p.line {
		if l, ok := f.alone(p, textIn(f.data, pieces, at)); ok {
			return l.records[0]
		}
	}
	return r
}
