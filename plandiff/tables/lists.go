package tables

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// memberLists sets the channels of zones and scan lists, once all channels are there.
func (b *builder) memberLists(s *sheet, all []*entry) {
	for _, e := range all {
		if e.thing.Kind == 0 || e.head().bad {
			continue
		}
		if i := e.head().column("priority.label"); i >= 0 && !b.unchanged(e, i, e.head().texts[i]) {
			if names, ok := b.channelNames(e.head(), i, e.head().texts[i]); ok {
				b.set(e.thing, "priority", names, e.head(), i)
			}
		}
		keys, labels := e.head().column("members"), e.head().column("members.label")
		if keys < 0 && labels < 0 {
			continue
		}
		want, ok := b.wanted(e, keys, labels)
		if !ok {
			continue
		}
		i := max(keys, labels)
		if keys >= 0 {
			i = keys
		}
		b.setMembers(e, want, i)
	}
}

// wanted gives the names of the channels that the rows of an entry list: by key where
// there is one, else by label.
func (b *builder) wanted(e *entry, keys, labels int) ([]string, bool) {
	var want []string
	for _, r := range e.rows {
		i := keys
		if i < 0 || len(r.texts[i]) == 0 {
			i = labels
		}
		if i < 0 {
			continue
		}
		names, ok := b.channelNames(r, i, r.texts[i])
		if !ok {
			return nil, false
		}
		want = append(want, names...)
	}
	return want, true
}

// channelNames finds the channels that a cell names: by their key, their talk path or
// their label.
func (b *builder) channelNames(r *row, i int, values []string) ([]string, bool) {
	names := make([]string, 0, len(values))
	byLabel := strings.HasSuffix(r.sheet.table.Columns[i].value.name, ".label")
	for _, text := range values {
		if now, ok := b.moved[text]; ok && !byLabel {
			text = now
		}
		c, ok := b.made.x.Find(text)
		if on := b.made.x.OnPath(text); !ok && len(on) == 1 {
			c, ok = on[0], true
		}
		if ok && !byLabel {
			names = append(names, c.Name)
			continue
		}
		found := b.labelled()[text]
		if len(found) != 1 {
			b.problem(r, i, fmt.Sprintf("%d channels are called %s", len(found), saying(text)), "write the key or the talk path of one, in a column for members")
			return nil, false
		}
		names = append(names, found[0])
	}
	return names, true
}

// labelled gives the names of the channels by label, as the plan that is made has them,
// and as the radio shows them.
func (b *builder) labelled() map[string][]string {
	if b.labels == nil {
		b.labels = make(map[string][]string)
		for _, c := range b.made.x.Channels {
			b.labels[c.Label] = append(b.labels[c.Label], c.Name)
			if cut := b.old.cut(c.Label); cut != c.Label {
				b.labels[cut] = append(b.labels[cut], c.Name)
			}
		}
	}
	return b.labels
}

// setMembers makes a zone or a scan list come to the channels that its rows list. What
// does not fit the radio stays where it is, and so do entries that stand for several
// channels, where all of those follow one another still.
func (b *builder) setMembers(e *entry, want []string, i int) {
	was, shown := b.membersNow(e.thing)
	want = b.once(e, want)
	if slices.Equal(shown, want) {
		return
	}
	all := merged(was, shown, want)
	b.set(e.thing, "channels", b.folded(e.thing, all), e.head(), i)
	b.lists = append(b.lists, members{e, i, all})
}

// members is what a zone or a scan list must come to.
type members struct {
	entry  *entry
	column int
	names  []string
}

// once drops what a list names again: a radio has a channel once in a zone.
func (b *builder) once(e *entry, names []string) []string {
	seen := make(map[string]bool, len(names))
	var all []string
	for _, name := range names {
		if seen[name] {
			b.note("%s: the %s lists %s twice, and has it once", e.head().sheet.file, e.thing, name)
			continue
		}
		seen[name] = true
		all = append(all, name)
	}
	return all
}

// membersNow gives the channels of a zone or scan list in the plan with the new channels:
// all, and those that the radio shows.
func (b *builder) membersNow(t plan.Thing) (all, shown []string) {
	for _, c := range b.whole.members(t) {
		all = append(all, c.Name)
	}
	for _, c := range b.made.members(t) {
		shown = append(shown, c.Name)
	}
	return all, shown
}

// merged puts into the list that a radio shows a part of what the table has for that
// part: what it does not show stays behind what it stood behind.
func merged(was, shown, want []string) []string {
	visible := make(map[string]bool, len(shown))
	for _, name := range shown {
		visible[name] = true
	}
	hidden := make(map[string][]string) // what follows each shown channel
	last := ""
	for _, name := range was {
		if visible[name] {
			last = name
		} else {
			hidden[last] = append(hidden[last], name)
		}
	}
	if len(hidden) == 0 {
		return want
	}
	all := slices.Clone(hidden[""])
	placed := make(map[string]bool)
	for _, name := range want {
		all = append(all, name)
		if !placed[name] {
			all = append(all, hidden[name]...)
		}
		placed[name] = true
	}
	for _, name := range was { // behind what is gone
		if visible[name] && !placed[name] {
			all = append(all, hidden[name]...)
		}
	}
	return all
}

// folded writes a list of channels with the entries that it had: one that stands for
// several is kept where all of them follow one another.
func (b *builder) folded(t plan.Thing, all []string) []string {
	kept := make(map[string][]span)
	for _, s := range b.spans(t) {
		kept[s.names[0]] = append(kept[s.names[0]], s)
	}
	var entries []string
	for n := 0; n < len(all); {
		best := span{all[n], all[n : n+1]}
		for _, s := range kept[all[n]] {
			if len(s.names) >= len(best.names) && n+len(s.names) <= len(all) && slices.Equal(s.names, all[n:n+len(s.names)]) {
				best = s
			}
		}
		entries = append(entries, best.entry)
		n += len(best.names)
	}
	return entries
}

// A span is an entry of a zone or scan list and the channels that it puts there.
type span struct {
	entry string
	names []string
}

// spans gives what each entry of a zone or a scan list puts there, by the places of the
// entries. An entry without a place of its own is not told apart, and makes none.
func (b *builder) spans(t plan.Thing) []span {
	var members []plan.Member
	var had []plan.Value[string]
	switch t.Kind {
	case plan.KindZone:
		for _, z := range b.made.x.Zones {
			if z.Zone.Thing() == t {
				members, had = z.Members, z.Zone.Channels
			}
		}
	default:
		for _, s := range b.made.x.ScanLists {
			if s.List.Thing() == t {
				members, had = s.Members, s.List.Channels
			}
		}
	}
	at := make(map[plan.Place]int)
	var spans []span
	for i, v := range had {
		if _, twice := at[v.At]; twice {
			return nil
		}
		at[v.At] = i
		spans = append(spans, span{entry: v.V})
	}
	for _, m := range members {
		if i, ok := at[m.At]; ok {
			spans[i].names = append(spans[i].names, m.Channel.Name)
		}
	}
	return slices.DeleteFunc(spans, func(s span) bool { return len(s.names) == 0 })
}
