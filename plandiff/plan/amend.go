package plan

import (
	"bytes"
	"reflect"
	"slices"
	"sort"
)

// Amend reads another version of the file. Where the two differ within one record
// that stands on lines of its own, as after most edits, only that record is read, and
// the others are those of f; else all of it is. Either way it gives what ParseFile gives.
// The bytes must not be changed afterwards.
func (f *File) Amend(data []byte) *File {
	if amended := f.amend(data); amended != nil {
		return amended
	}
	return ParseFile(f.name, data)
}

// Beyond gives what the file says beyond another version of it: the records that are
// not the very same in both, as those around an amended one are.
func (f *File) Beyond(other *File) *File {
	shared := make(map[Record]bool, len(other.records))
	for _, r := range other.records {
		shared[r] = true
	}
	g := *f
	g.records = nil
	for _, r := range f.records {
		if !shared[r] {
			g.records = append(g.records, r)
		}
	}
	if f.header == other.header {
		g.header = nil
	}
	return &g
}

// amend gives nil where the difference is not within one record.
func (f *File) amend(data []byte) *File {
	if len(f.problems) > 0 || f.lost || f.aliased > 0 || len(f.records) == 0 || int64(len(data)) > mostOf(f.name) ||
		bytes.IndexByte(f.data, '&') >= 0 {
		return nil
	}
	start := samePrefix(f.data, data)
	end := sameSuffix(f.data[start:], data[start:])
	i := f.recordAt(bytes.Count(f.data[:start], []byte{'\n'}) + 1)
	if i < 0 {
		return nil
	}
	was, ok := f.linesOf(i)
	if !ok || was.end < len(f.data)-end {
		return nil // it reaches into the next record
	}
	now := stretch{was.start, len(data) - (len(f.data) - was.end)}
	r, values, ok := f.again(i, data, was, now)
	if !ok {
		return nil
	}
	g := *f
	g.data, g.size, g.values = data, int64(len(data)), f.values+values
	g.records = append([]Record(nil), f.records...)
	g.records[i] = r
	return &g
}

func samePrefix(a, b []byte) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[i] != b[i] {
			return i
		}
	}
	return n
}

func sameSuffix(a, b []byte) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[len(a)-1-i] != b[len(b)-1-i] {
			return i
		}
	}
	return n
}

// recordAt gives the record on whose lines a line is, or -1.
func (f *File) recordAt(line int) int {
	return sort.Search(len(f.records), func(i int) bool { return int(f.records[i].Place().Line) > line }) - 1
}

// A stretch is some bytes of a text, from start to before end.
type stretch struct{ start, end int }

// linesOf gives the lines of a record: from the one with its key to the next one
// that is not further in. It must be a record of a section written in block style, two
// blanks in, with nothing else on its lines.
func (f *File) linesOf(i int) (stretch, bool) {
	r := f.records[i]
	at, s := r.Place(), SectionOf(r.Thing().Kind)
	if at.Col != 3 || s.Key == "" || s.under != "" || s.listed {
		return stretch{}, false
	}
	if i > 0 && f.records[i-1].Place().Line == at.Line || i+1 < len(f.records) && f.records[i+1].Place().Line == at.Line {
		return stretch{}, false
	}
	start := lineStart(f.data, int(at.Line))
	end := start + lineLength(f.data[start:])
	for end < len(f.data) && furtherIn(f.data[end:]) {
		end += lineLength(f.data[end:])
	}
	return stretch{start, end}, inBlock(f.data[:start], s.Key)
}

func lineStart(data []byte, line int) int {
	at := 0
	for range line - 1 {
		at += bytes.IndexByte(data[at:], '\n') + 1
	}
	return at
}

func lineLength(data []byte) int {
	if n := bytes.IndexByte(data, '\n'); n >= 0 {
		return n + 1
	}
	return len(data)
}

// furtherIn reports whether a line is indented by more than two blanks.
func furtherIn(line []byte) bool { return bytes.HasPrefix(line, []byte("   ")) }

// inBlock reports whether the last line of the text before a record that is not
// indented is the key of the section alone.
func inBlock(before []byte, section string) bool {
	for len(before) > 0 {
		start := bytes.LastIndexByte(before[:len(before)-1], '\n') + 1
		line := before[start:]
		if c := line[0]; c != ' ' && c != '\n' && c != '\r' && c != '#' {
			return string(bytes.TrimRight(line, " \r\n")) == section+":"
		}
		before = before[:start]
	}
	return false
}

// again reads one record from its lines alone, in both versions. The old one must
// come out as it was read within the file: then the new one does, too.
func (f *File) again(i int, data []byte, was, now stretch) (Record, int, bool) {
	oldLines, newLines := f.data[was.start:was.end], data[now.start:now.end]
	if now.end < now.start || bytes.Count(oldLines, []byte{'\n'}) != bytes.Count(newLines, []byte{'\n'}) || !sameKey(oldLines, newLines) || !allFurtherIn(newLines) {
		return nil, 0, false
	}
	old, oldValues, ok := f.alone(i, oldLines)
	if !ok || !reflect.DeepEqual(old, f.records[i]) {
		return nil, 0, false
	}
	r, newValues, ok := f.alone(i, newLines)
	return r, newValues - oldValues, ok
}

// sameKey reports whether both texts begin with the same key of a mapping.
func sameKey(a, b []byte) bool {
	colon := bytes.IndexByte(a, ':') + 1
	return colon > 0 && bytes.HasPrefix(b, a[:colon])
}

// allFurtherIn reports whether all lines but the first are indented further than
// the key of a record, and the text ends with one.
func allFurtherIn(lines []byte) bool {
	n := lineLength(lines)
	for n < len(lines) {
		if !furtherIn(lines[n:]) {
			return false
		}
		n += lineLength(lines[n:])
	}
	return len(lines) > 0 && lines[len(lines)-1] == '\n'
}

// alone reads the lines of a record under the key of its section, at their place.
func (f *File) alone(i int, lines []byte) (Record, int, bool) {
	was := f.records[i]
	section := SectionOf(was.Thing().Kind).Key
	l := &loader{plan: new(Plan), file: f.name}
	if _, ok := l.clean(lines); !ok {
		return nil, 0, false
	}
	above := int(was.Place().Line) - 1 // where the section stands, to the reader
	if above < 1 {
		return nil, 0, false
	}
	l.readYAML(slices.Concat([]byte(section+":\n"), lines), above)
	if len(l.plan.Problems) > 0 || l.alias > 0 || len(l.records) != 1 || l.records[0].Thing() != was.Thing() {
		return nil, 0, false
	}
	if rep, ok := l.records[0].(*Repeater); ok && rep.splitLost() {
		return nil, 0, false
	}
	return l.records[0], l.values, true
}
