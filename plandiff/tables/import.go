package tables

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// An Import is the plan that tables make of another one.
type Import struct {
	Plan     *plan.Plan     // nil where there are Problems
	Problems []Problem      // why rows cannot be read, sorted by place
	Notices  []string       // how the tables were read, and what of them was not
	Rows     map[string]int // by file
}

// Read makes a plan of the plan x and what the tables in files say by the layout. radio
// is the key of the class of radio that the tables are for, or "". Nothing in x is
// changed.
//
// What a row says like the plan does changes nothing, however the plan says it; what
// the tables do not have stays. Where a row cannot be read, all such rows are told in
// Problems, and no plan is made. The error says why nothing could be read at all.
func Read(x *plan.Expansion, radio string, l *Layout, files []File) (*Import, error) {
	old, err := newView(x, radio)
	if err != nil {
		return nil, err
	}
	b := &builder{
		layout: l, radio: radio, old: old, draft: newDraft(x.Plan), notices: slices.Clone(l.Notices),
		claims: map[claimed]*claim{}, moved: map[string]string{}, taken: map[plan.Record]bool{}, paths: map[string]*channelRow{},
		heardBy: map[string]*entry{}, newLists: map[string]string{},
	}
	for _, f := range files {
		if s := b.open(f); s != nil && b.onlyOne(s) {
			b.sheets = append(b.sheets, s)
		}
	}
	out := &Import{Rows: map[string]int{}}
	for _, s := range b.sheets {
		out.Rows[s.file] = len(s.rows)
	}
	if len(files) > 0 {
		out.Plan, err = b.build()
	}
	out.Problems, out.Notices = sortProblems(b.problems), append(b.notices, b.stale.lines("row", "rows")...)
	if len(out.Problems) > 0 {
		out.Plan = nil
	}
	return out, err
}

// onlyOne refuses a second file for one table.
func (b *builder) onlyOne(s *sheet) bool {
	for _, other := range b.sheets {
		if other.table == s.table {
			b.about(s, fmt.Sprintf("this is the table %s, and so is %s", s.table.File, other.file), "name one of them")
			return false
		}
	}
	return true
}

// of gives the sheets whose rows are of these sources, in the order of the names.
func (b *builder) of(names ...string) []*sheet {
	var found []*sheet
	for _, name := range names {
		for _, s := range b.sheets {
			if s.table.source.name == name {
				found = append(found, s)
			}
		}
	}
	return found
}

// build makes the plan: what others refer to first, and lists of channels when all
// channels are there.
func (b *builder) build() (*plan.Plan, error) {
	lists := make(map[*sheet][]*entry)
	for _, s := range b.of("groups", "receive_lists", "repeaters", "written_channels", "scan_lists", "zones") {
		lists[s] = b.records(s)
	}
	for _, s := range b.of("listening_lists") {
		b.readListening(s)
	}
	for _, s := range b.of("channels") {
		b.readChannels(s)
	}
	for _, s := range b.of("messages", "operators", "shortcuts", "radios") {
		b.records(s)
	}
	if len(b.problems) > 0 {
		return nil, nil
	}
	b.translate()
	if err := b.make(); err != nil {
		return nil, err
	}
	for _, s := range b.of("zones", "scan_lists") {
		b.memberLists(s, lists[s])
	}
	b.zonesOfChannels()
	if len(b.lists) > 0 {
		if err := b.makeLists(); err != nil {
			return nil, err
		}
	}
	b.verify()
	return b.made.x.Plan, nil
}

// make works the draft out.
func (b *builder) make() error {
	p, err := b.draft.plan()
	if err != nil {
		return err
	}
	x := plan.Expand(p)
	if b.whole, err = newView(x, ""); err != nil {
		return err
	}
	b.labels = nil
	b.made, err = newView(x, b.radio)
	return err
}

// translate writes the new talk path where an entry names one that moved.
func (b *builder) translate() {
	if len(b.moved) == 0 {
		return
	}
	for _, kind := range []plan.Kind{plan.KindZone, plan.KindScanList, plan.KindChannel} {
		for i := range plan.SectionOf(kind).Fields {
			if f := &plan.SectionOf(kind).Fields[i]; f.Ref == plan.RefEntry {
				b.translateField(kind, f)
			}
		}
	}
}

func (b *builder) translateField(kind plan.Kind, f *plan.Field) {
	for _, r := range b.draft.all(kind) {
		entries := f.Texts(r, nil)
		changed := false
		for i, text := range entries {
			if now, ok := b.moved[text]; ok && b.paths[text] == nil {
				entries[i], changed = now, true
			}
		}
		if record, ok := b.draft.edit(r.Thing()); changed && ok {
			_ = f.Set(record, entries) // entries in the form of those that were there
		}
	}
}

// makeLists works the draft out again, and writes out the lists of channels that do not
// come to what they must.
func (b *builder) makeLists() error {
	if err := b.make(); err != nil {
		return err
	}
	again := false
	for _, m := range b.lists {
		if all, _ := b.membersNow(m.entry.thing); !slices.Equal(all, m.names) {
			again = true
			b.set(m.entry.thing, "channels", m.names, m.entry.head(), m.column)
		}
	}
	if !again {
		return nil
	}
	if err := b.make(); err != nil {
		return err
	}
	for _, m := range b.lists {
		if all, _ := b.membersNow(m.entry.thing); !slices.Equal(all, m.names) {
			b.problem(m.entry.head(), m.column, fmt.Sprintf("the %s cannot be made to hold these channels", m.entry.thing), "change it in the plan by hand")
		}
	}
	return nil
}

// verify looks whether each cell that was to change something reads the same in the
// plan that was made.
func (b *builder) verify() {
	for _, c := range b.checks {
		column := c.row.sheet.table.Columns[c.column]
		var it item
		if c.channel != nil {
			it.channel, _ = b.made.x.Find(c.channel.name())
		} else {
			it.record, _ = b.draft.find(c.thing)
		}
		if it.channel == nil && it.record == nil {
			b.problem(c.row, c.column, "the channel of this row would not be in the plan", "change the plan by hand")
			continue
		}
		now := column.value.get(b.made, it)
		want := c.row.texts[c.column]
		if c.channel == nil && c.row.sheet.table.spread(column) || slices.Equal(now, want) || len(want) == 1 && slices.Equal(now, []string{b.made.cut(want[0])}) {
			continue
		}
		b.problem(c.row, c.column, fmt.Sprintf("this cannot be kept: the plan would say %s", saying(strings.Join(now, ", "))), "change the plan by hand, or let the row say what it was")
	}
}
