package tables

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// An entry is what a sheet says of one record: a row, or the rows that each have one
// item of a list of it.
type entry struct {
	rows  []*row
	thing plan.Thing  // what it is about, once that is found
	old   plan.Record // as the plan had it; nil where the tables bring it
}

func (e *entry) head() *row { return e.rows[0] }

// entries puts the rows of a sheet together that are about one record.
func (b *builder) entries(s *sheet) []*entry {
	var all []*entry
	byName := make(map[string]*entry)
	for _, r := range s.rows {
		if r.bad {
			continue
		}
		name := s.name(r)
		e := byName[name]
		switch {
		case e == nil || name == "":
			e = &entry{rows: []*row{r}}
			all, byName[name] = append(all, e), e
		case s.table.each == nil:
			b.problem(r, -1, fmt.Sprintf("it is about the same as row %d", e.head().n), "take one of them out, or give it another key")
		case b.agree(e.head(), r):
			e.rows = append(e.rows, r)
		}
	}
	return all
}

// name tells by what rows are known to be about one record.
func (s *sheet) name(r *row) string {
	if s.table.source.kind == plan.KindOperator {
		return "" // several rows may say the same
	}
	for _, value := range namesOf[s.table.source.name] {
		var parts []string
		for v := range strings.FieldsSeq(value) {
			if i := s.table.find(v); s.has(i) && len(r.texts[i]) > 0 {
				parts = append(parts, r.texts[i][0])
			}
		}
		if len(parts) == len(strings.Fields(value)) {
			return value + "\x00" + strings.Join(parts, "\x00")
		}
	}
	return ""
}

// namesOf gives the values by which the records of a source are known where they have no
// key, the surest first: what they are on the air, then what they are called.
var namesOf = map[string][]string{
	"groups":           {"key", "id call", "id", "label", "called"},
	"receive_lists":    {"key", "label", "called"},
	"repeaters":        {"key", "output input dmr.color_code", "output split dmr.color_code", "output input", "output split", "label", "called"},
	"written_channels": {"key", "path label", "path", "label", "simplex", "receive"},
	"listening_lists":  {"key", "label"},
	"scan_lists":       {"key", "label", "called"},
	"zones":            {"key", "label", "called"},
	"messages":         {"key", "text"},
	"operators":        {"id callsign name", "id callsign", "id"},
	"shortcuts":        {"key"},
	"radios":           {"key", "label", "called"},
}

// agree tells rows of one record that say different things outside of the list.
func (b *builder) agree(first, r *row) bool {
	for i, c := range r.sheet.table.Columns {
		if c.value != nil && !r.sheet.table.spread(c) && !slices.Equal(first.texts[i], r.texts[i]) {
			b.problem(r, i, fmt.Sprintf("it says another thing than row %d, which is about the same", first.n), "let both say the same")
			return false
		}
	}
	return true
}

// records reads a sheet of records: finds or makes each, and sets what the rows say
// but for lists of channels, which are set when all channels are there.
func (b *builder) records(s *sheet) []*entry {
	all := b.entries(s)
	index := b.index(s)
	for _, e := range all {
		b.identify(s, e, index)
	}
	for _, e := range all {
		if e.thing.Kind != 0 {
			b.fields(s, e)
			b.needs(e)
		}
	}
	return all
}

// needed names the fields without which a file of a plan cannot hold a record.
var needed = map[plan.Kind][]string{
	plan.KindMessage: {"text"}, plan.KindShortcut: {"calls"}, plan.KindOperator: {"id", "callsign"},
}

// needs notes what an entry leaves out and its record cannot be without.
func (b *builder) needs(e *entry) {
	for _, field := range needed[e.thing.Kind] {
		r, ok := b.draft.find(e.thing)
		if ok && len(plan.SectionOf(e.thing.Kind).Field(field).Items(r)) == 0 && !e.head().bad {
			b.problem(e.head(), e.head().column(field), fmt.Sprintf("a %s needs its %s", e.thing.Kind, field), "write it, or take the row out: a row that is not there changes nothing")
		}
	}
}

// index finds the records of the base by what names them.
func (b *builder) index(s *sheet) map[string][]plan.Record {
	index := make(map[string][]plan.Record)
	section := plan.SectionOf(s.table.source.kind)
	for _, r := range section.All(b.old.x.Plan) {
		for _, value := range namesOf[s.table.source.name] {
			var parts []string
			for name := range strings.FieldsSeq(value) {
				if v := s.table.source.find(name); v != nil {
					parts = append(parts, v.get(b.old, item{record: r})...)
				}
			}
			if len(parts) == len(strings.Fields(value)) {
				name := value + "\x00" + strings.Join(parts, "\x00")
				index[name] = append(index[name], r)
			}
		}
	}
	return index
}

// identify finds the record that an entry is about, or makes one. A row that has a key
// is about the record of that key and no other; operators have none, and of those that
// say the same each row is one.
func (b *builder) identify(s *sheet, e *entry, index map[string][]plan.Record) {
	kind := s.table.source.kind
	r := e.head()
	key := r.says("key")
	if key == "" {
		for _, name := range b.namesOf(s, r) {
			found := index[name]
			found = slices.DeleteFunc(slices.Clone(found), func(f plan.Record) bool { return b.taken[f] })
			if len(found) > 1 && kind != plan.KindOperator {
				b.problem(r, -1, fmt.Sprintf("%d %ss of the plan are like this row", len(found), kind), "give the table a column with the key, which tells them apart")
				return
			}
			if len(found) > 0 {
				e.old = found[0]
				break
			}
		}
	} else if old, ok := b.old.x.Plan.Find(plan.Thing{Kind: kind, Key: key}); ok {
		e.old = old
	}
	if e.old != nil {
		e.thing, b.taken[e.old] = e.old.Thing(), true
		return
	}
	if key == "" {
		key = b.keyFor(s, r)
	}
	if kind == plan.KindShortcut && len(key) != 1 {
		b.problem(r, s.table.find("key"), "a shortcut needs the digit that calls it", "give the table a column with the key, a digit")
		return
	}
	e.thing = b.draft.add(kind, key)
}

// namesOf gives all names of a row, the surest first.
func (b *builder) namesOf(s *sheet, r *row) []string {
	var names []string
	for _, value := range namesOf[s.table.source.name] {
		var parts []string
		for v := range strings.FieldsSeq(value) {
			parts = append(parts, texts(r.says(v))...)
		}
		if len(parts) == len(strings.Fields(value)) {
			names = append(names, value+"\x00"+strings.Join(parts, "\x00"))
		}
	}
	return names
}

// keyFor makes the key of a record that the tables bring.
func (b *builder) keyFor(s *sheet, r *row) string {
	for _, value := range []string{"label", "called", "text", "simplex", "receive", "output", "id"} {
		if text := r.says(value); text != "" {
			return b.draft.newKey(s.table.source.kind, text)
		}
	}
	return b.draft.newKey(s.table.source.kind, "")
}

// says gives the one text that a row has for a value, or "".
func (r *row) says(value string) string {
	if i := r.sheet.table.find(value); r.sheet.has(i) {
		return first(r.texts[i])
	}
	return ""
}

// fields sets what the rows of an entry say, where it is not what the plan says.
func (b *builder) fields(s *sheet, e *entry) {
	said := make(map[string]int) // fields that are set, and the column that did
	for _, i := range s.surestFirst() {
		c := s.table.Columns[i]
		if c.value.field == "" || c.value.field == "key" || isMembers(c.value) || s.table.spread(c) && isMembers(s.table.each) {
			continue
		}
		values, ok := b.listed(s, e, i)
		if !ok || b.unchanged(e, i, values) || e.old == nil && len(values) == 0 {
			continue
		}
		values, ok = b.resolve(s, e, i, values)
		if !ok {
			continue
		}
		if j, twice := said[c.value.field]; twice {
			if now, _ := b.draft.find(e.thing); !slices.Equal(plan.SectionOf(e.thing.Kind).Field(c.value.field).Texts(now, nil), values) {
				b.stale.add(fmt.Sprintf("%s: column %s (%s) says another thing than column %s (%s), which counts", s.file, Letters(s.cols[i]+1), c.Header, Letters(s.cols[j]+1), s.table.Columns[j].Header))
			}
			continue
		}
		said[c.value.field] = i
		b.set(e.thing, c.value.field, values, e.head(), i)
		b.checks = append(b.checks, check{e.head(), i, e.thing, nil})
	}
}

// surestFirst gives the columns that show a value, those with the words of the plan before
// those that show the same in others.
func (s *sheet) surestFirst() []int {
	var columns []int
	for _, v := range s.table.source.values {
		if i := s.table.find(v.name); s.has(i) {
			columns = append(columns, i)
		}
	}
	return columns
}

// listed gathers the items of a list from the rows of an entry.
func (b *builder) listed(s *sheet, e *entry, i int) ([]string, bool) {
	if !s.table.spread(s.table.Columns[i]) {
		return e.head().texts[i], true
	}
	var all []string
	for _, r := range e.rows {
		if len(r.texts[i]) == 0 && len(e.rows) > 1 {
			return nil, false // other columns say what this one leaves out
		}
		all = append(all, r.texts[i]...)
	}
	return all, true
}

// unchanged reports whether an entry says what the plan says.
func (b *builder) unchanged(e *entry, i int, values []string) bool {
	if e.old == nil {
		return false
	}
	c := e.head().sheet.table.Columns[i]
	was := c.value.get(b.old, item{record: e.old})
	if slices.Equal(was, values) {
		return true
	}
	if label := plan.SectionOf(e.thing.Kind).Field("label"); label != nil && c.value.field == "label" && slices.Equal(label.Texts(e.old, nil), values) {
		return true // the whole label, where the radio shows a part of it
	}
	cell, err := c.write(was, e.head().sheet.comma)
	return err == nil && len(e.rows) == 1 && cell == e.head().cells[i]
}
