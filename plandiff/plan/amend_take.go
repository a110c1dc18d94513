package plan

import "bytes"

// A said is what a record's piece says.
type said struct {
	kind Kind
	text string
}

// take takes the records of the pieces that may differ: those of old pieces that say the
// same, and else what can be read alone. The frames must have the same keys in their order.
func (a *amending) take() bool {
	first := a.old[a.from].first
	a.pieces = append(make([]piece, 0, len(a.old)+len(a.came)), a.old[:a.from]...)
	a.records = append(make([]Record, 0, len(a.file.records)+len(a.came)), a.file.records[:first]...)
	a.gone = make(map[said]int, a.to-a.from)
	var frames []int
	for i := a.from; i < a.to; i++ {
		text := a.oldText(i)
		a.values -= valuesIn(text)
		if kind := a.old[i].kind; kind == 0 {
			frames = append(frames, i)
		} else {
			a.gone[said{kind, string(text)}] = i
		}
	}
	for i, p := range a.came {
		end := a.behind
		if i+1 < len(a.came) {
			end = int(a.came[i+1].start)
		}
		text := a.data[p.start:end]
		a.values += valuesIn(text)
		ok := false
		switch {
		case p.kind != 0:
			ok = a.putRecord(p, text)
		case len(frames) > 0:
			ok = a.putFrame(p, text, frames[0])
			frames = frames[1:]
		}
		if !ok {
			return false
		}
	}
	return len(frames) == 0
}

func (a *amending) oldText(i int) []byte { return textIn(a.file.data, a.old, i) }

// open reports whether a record can begin at an offset of the new version: behind another
// one, or behind the key of its section, with nothing but comments between them.
func (a *amending) open(at int) bool {
	last := a.pieces[len(a.pieces)-1]
	if last.kind != 0 {
		return true
	}
	text := a.data[last.start:at]
	if headed(text) == 0 {
		return false
	}
	for text = text[lineLength(text):]; len(text) > 0; text = text[lineLength(text):] {
		if line := bytes.TrimLeft(text, " "); line[0] != '\n' && line[0] != '\r' && line[0] != '#' {
			return false
		}
	}
	return true
}

// putRecord puts the piece of a record behind the others.
func (a *amending) putRecord(p piece, text []byte) bool {
	if !a.open(int(p.start)) {
		return false
	}
	if was, ok := a.gone[said{p.kind, string(text)}]; ok {
		delete(a.gone, said{p.kind, string(text)})
		a.put(p, a.file.records[a.old[was].first])
		a.shifted = a.shifted || a.old[was].line != p.line
		return true
	}
	l, ok := a.file.alone(p, text)
	if !ok {
		return false
	}
	a.put(p, l.records...)
	a.fresh = append(a.fresh, l.records...)
	return true
}

// putFrame puts a frame behind the other pieces, in the place of an old one.
func (a *amending) putFrame(p piece, text []byte, was int) bool {
	before := a.oldText(was)
	same := bytes.Equal(before, text)
	if same && (p.line == a.old[was].line || a.silent(was)) {
		a.put(p, a.recordsOf(was)...)
		return true
	}
	if !same && !bytes.Equal(topKey(before), topKey(text)) {
		return false
	}
	records, ok := a.frame(p, text)
	if ok {
		a.put(p, records...)
	}
	return ok
}

func (a *amending) put(p piece, records ...Record) {
	p.first = int32(len(a.records))
	a.pieces = append(a.pieces, p)
	a.records = append(a.records, records...)
}

// recordsOf gives the records of an old piece.
func (a *amending) recordsOf(i int) []Record {
	if i+1 < len(a.old) {
		return a.file.records[a.old[i].first:a.old[i+1].first]
	}
	return a.file.records[a.old[i].first:]
}

// silent reports whether an old frame says nothing itself, so that its place is nowhere:
// the key of a section, with no records in it, alone.
func (a *amending) silent(i int) bool {
	return len(a.recordsOf(i)) == 0 && headed(a.oldText(i)) != 0
}

// frame reads a frame anew. The header of a plan is never amended.
func (a *amending) frame(p piece, text []byte) ([]Record, bool) {
	if sections()[0].Field(string(topKey(text))) != nil {
		return nil, false
	}
	l, ok := a.file.alone(p, text)
	if !ok || l.plan.Header != (Header{}) {
		return nil, false
	}
	return l.records, true
}

// topKey gives what stands before the first colon of a frame.
func topKey(text []byte) []byte {
	key, _, _ := bytes.Cut(bytes.TrimPrefix(text, []byte(byteOrderMark)), []byte(":"))
	return bytes.TrimRight(key, " ")
}

// rest takes the pieces behind those that differ.
func (a *amending) rest() bool {
	if a.to == len(a.old) {
		return true
	}
	was := a.old[a.to]
	if was.kind != 0 && !a.open(a.behind) {
		return false
	}
	bytes, lines, records := int32(a.behind)-was.start, int32(a.line)-was.line, int32(len(a.records))-was.first
	a.records = append(a.records, a.file.records[was.first:]...)
	for i, p := range a.old[a.to:] {
		p.start, p.line, p.first = p.start+bytes, p.line+lines, p.first+records
		a.pieces = append(a.pieces, p)
		switch {
		case lines == 0:
		case p.kind != 0:
			a.shifted = true
		case !a.silent(a.to + i):
			same := a.recordsOf(a.to + i)
			anew, ok := a.frame(p, a.oldText(a.to+i))
			if !ok || len(anew) != len(same) {
				return false
			}
			copy(a.records[p.first:], anew)
		}
	}
	return true
}

// twice reports whether a record that was read has the key of another one.
func (a *amending) twice() bool {
	if len(a.fresh) == 0 {
		return false
	}
	if len(a.fresh) == 1 && len(a.gone) == 1 {
		for _, was := range a.gone {
			if a.file.records[a.old[was].first].Thing() == a.fresh[0].Thing() {
				return false
			}
		}
	}
	times := make(map[Thing]int, len(a.fresh))
	for _, r := range a.fresh {
		times[r.Thing()] = 0
	}
	for _, r := range a.records {
		t := r.Thing()
		if n, ok := times[t]; ok {
			if n > 0 {
				return true
			}
			times[t] = 1
		}
	}
	return false
}

// valuesIn counts what could be a value, as reading does.
func valuesIn(text []byte) int {
	return bytes.Count(text, []byte{'\n'}) + bytes.Count(text, []byte{','}) + bytes.Count(text, []byte{':'})
}
