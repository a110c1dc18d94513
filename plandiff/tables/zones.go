package tables

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// zonesOfChannels puts channels into the zones that their rows name, and takes them out
// of those that they do not name any more. A table of zones says more, and where there
// is one the column is not read.
func (b *builder) zonesOfChannels() {
	column := -1
	var rows []*channelRow
	for _, r := range b.channel {
		if i := r.column("zones", "zones.label"); i >= 0 {
			column = i
			rows = append(rows, r)
		}
	}
	if column < 0 {
		return
	}
	if len(b.of("zones")) > 0 {
		b.note("the column %s is not read: there is a table of zones", rows[0].sheet.table.Columns[column].Header)
		return
	}
	want := make(map[plan.Thing][]string)
	heads := make(map[plan.Thing]*channelRow)
	changed := make(map[plan.Thing]bool)
	for _, r := range rows {
		b.zonesOf(r, column, want, heads, changed)
	}
	for _, z := range b.draft.all(plan.KindZone) {
		t := z.Thing()
		if changed[t] {
			b.setMembers(&entry{rows: []*row{heads[t].row}, thing: t}, b.inOrder(t, rows, want[t]), column)
		}
	}
}

// zonesOf notes the zones of one row.
func (b *builder) zonesOf(r *channelRow, column int, want map[plan.Thing][]string, heads map[plan.Thing]*channelRow, changed map[plan.Thing]bool) {
	was := make(map[plan.Thing]bool)
	if r.old != nil {
		for _, z := range b.old.zones[r.old] {
			was[z.Thing()] = true
		}
	}
	differs := b.differs(r, column)
	for _, text := range r.texts[column] {
		t, ok := b.zone(text, r, column)
		if !ok {
			continue
		}
		want[t] = append(want[t], r.name())
		if heads[t] == nil {
			heads[t] = r
		}
		changed[t] = changed[t] || differs && !was[t]
		delete(was, t)
	}
	for t := range was {
		changed[t] = changed[t] || differs
		if heads[t] == nil {
			heads[t] = r
		}
	}
}

// zone finds a zone by its key or its label, or makes one.
func (b *builder) zone(text string, r *channelRow, i int) (plan.Thing, bool) {
	t := plan.Thing{Kind: plan.KindZone, Key: text}
	if _, ok := b.draft.find(t); ok {
		return t, true
	}
	if b.zoneBy == nil {
		b.zoneBy = make(map[string][]plan.Thing)
		for _, z := range b.draft.all(plan.KindZone) {
			b.knowZone(z.(*plan.Zone).Called(), z.Thing())
		}
	}
	switch found := b.zoneBy[text]; len(found) {
	case 1:
		return found[0], true
	case 0:
		t = b.draft.add(plan.KindZone, b.draft.newKey(plan.KindZone, text))
		if text != t.Key {
			b.set(t, "label", []string{text}, r.row, i)
		}
		b.knowZone(text, t)
		return t, true
	}
	b.problem(r.row, i, fmt.Sprintf("several zones are called %s", saying(text)), "write their keys")
	return t, false
}

// knowZone makes a zone found by its label, whole or as the radio shows it.
func (b *builder) knowZone(label string, t plan.Thing) {
	b.zoneBy[label] = append(b.zoneBy[label], t)
	if cut := b.old.cut(label); cut != label {
		b.zoneBy[cut] = append(b.zoneBy[cut], t)
	}
}

// inOrder gives the channels of a zone: those that it had in their order, then those that
// come, in the order of the table. Channels that the table does not have stay.
func (b *builder) inOrder(t plan.Thing, rows []*channelRow, want []string) []string {
	in := make(map[string]bool, len(want))
	for _, name := range want {
		in[name] = true
	}
	listed := make(map[string]bool, len(rows))
	for _, r := range rows {
		listed[r.name()] = true
	}
	_, shown := b.membersNow(t)
	all := slices.DeleteFunc(slices.Clone(shown), func(name string) bool { return listed[name] && !in[name] })
	had := make(map[string]bool, len(all))
	for _, name := range all {
		had[name] = true
	}
	for _, name := range want {
		if !had[name] {
			all = append(all, name)
		}
	}
	return all
}
