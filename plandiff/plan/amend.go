package plan

import (
	"bytes"
	"sort"
)

// Amend reads another version of the file. The records whose text is the same are those of
// f, though their lines may have moved, and only the others are read, where both versions
// can be cut in records by the looks of their lines; else all of it is read. Either way it
// gives what ParseFile gives. The bytes must not be changed afterwards.
func (f *File) Amend(data []byte) *File {
	if amended := f.amend(data); amended != nil {
		return amended
	}
	return ParseFile(f.name, data)
}

// amend gives nil where the file or the difference cannot be cut in records.
func (f *File) amend(data []byte) *File {
	old := f.pieces()
	if old == nil || int64(len(data)) > mostOf(f.name) {
		return nil
	}
	a := &amending{file: f, old: old, data: data, values: f.values, shifted: f.shifted}
	if !a.differing() || !a.take() || !a.rest() || a.values > MaxValues || a.twice() {
		return nil
	}
	pieces := a.pieces // and not a, which knows the file before
	return &File{
		name: f.name, size: int64(len(data)), values: a.values, text: true, records: a.records, header: f.header,
		data: data, pieces: func() []piece { return pieces }, shifted: a.shifted,
	}
}

// An amending makes another version of a file, piece by piece.
type amending struct {
	file   *File
	old    []piece
	from   int // the old pieces from here
	to     int // to before here may differ
	data   []byte
	came   []piece // what stands in their place
	behind int     // where that ends
	line   int     // the number of the line there

	pieces  []piece // of the new version
	records []Record
	values  int
	shifted bool         // some records stand on other lines than they say
	fresh   []Record     // those that were read
	gone    map[said]int // the old pieces that say what no new one says
}

// differing finds the pieces that may differ: those between what is the same before and
// what is the same behind.
func (a *amending) differing() bool {
	was := a.file.data
	same := samePrefix(was, a.data)
	tail := len(was) - sameSuffix(was[same:], a.data[same:])
	// The line behind a piece says where it ends, so the one before may differ as well.
	a.from = max(0, sort.Search(len(a.old), func(i int) bool { return int(a.old[i].start) > same })-2)
	first := a.old[a.from]
	a.to, a.behind = len(a.old), len(a.data)
	for c := (cutting{data: a.data, at: int(first.start), line: int(first.line), section: first.kind, indent: int(first.indent)}); c.next(); {
		if at := int(c.piece.start) + len(was) - len(a.data); at >= tail {
			if i := a.oldAt(at); i < len(a.old) && a.old[i].kind == c.piece.kind && a.old[i].indent == c.piece.indent {
				a.to, a.behind, a.line = i, int(c.piece.start), int(c.piece.line)
				break
			}
		}
		a.came = append(a.came, c.piece)
	}
	return len(a.came) > 0
}

// oldAt gives the old piece that starts at an offset, or how many there are.
func (a *amending) oldAt(offset int) int {
	i := sort.Search(len(a.old), func(i int) bool { return int(a.old[i].start) >= offset })
	if i < len(a.old) && int(a.old[i].start) == offset {
		return i
	}
	return len(a.old)
}

func samePrefix(a, b []byte) int {
	const step = 256 // bytes that are compared at a time
	at, n := 0, min(len(a), len(b))
	for at+step <= n && bytes.Equal(a[at:at+step], b[at:at+step]) {
		at += step
	}
	for at < n && a[at] == b[at] {
		at++
	}
	return at
}

func sameSuffix(a, b []byte) int {
	const step = 256
	at, n := 0, min(len(a), len(b))
	for at+step <= n && bytes.Equal(a[len(a)-at-step:len(a)-at], b[len(b)-at-step:len(b)-at]) {
		at += step
	}
	for at < n && a[len(a)-1-at] == b[len(b)-1-at] {
		at++
	}
	return at
}
