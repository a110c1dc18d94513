package tables

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// readListening keeps what the tables of listening lists say, until channels ask for it.
func (b *builder) readListening(s *sheet) {
	for _, e := range b.entries(s) {
		label := e.head().says("label")
		if label == "" {
			label = e.head().says("key")
		}
		b.heardBy[label] = e
		for _, h := range b.old.heard {
			if h.key == e.head().says("key") || e.head().column("key") < 0 && h.shown == label {
				b.changeHeard(e, h)
			}
		}
	}
}

// changeHeard gives a receive list of the plan the groups that the rows have.
func (b *builder) changeHeard(e *entry, h *heard) {
	if i := e.head().column("groups", "groups.id", "groups.label"); i >= 0 {
		texts, ok := b.listed(e.head().sheet, e, i)
		if ok && slices.Equal(texts, e.head().sheet.table.Columns[i].value.get(b.old, item{heard: h})) {
			return
		}
	}
	groups, i, ok := b.heardGroups(e)
	switch {
	case !ok || slices.Equal(groups, h.groups):
	case h.list != nil:
		b.set(h.list.Thing(), "groups", groups, e.head(), i)
	default:
		b.problem(e.head(), i, fmt.Sprintf("the listening list %s follows from what the repeater carries, and a table cannot change it", h.label), "let the rows say what it was, and give the channels a list of another name")
	}
}

// heardGroups gives the groups of a listening list, by key and sorted, and the column
// that has them.
func (b *builder) heardGroups(e *entry) ([]string, int, bool) {
	i := e.head().column("groups", "groups.id", "groups.label")
	if i < 0 {
		return nil, i, false
	}
	texts, ok := b.listed(e.head().sheet, e, i)
	if !ok {
		return nil, i, false
	}
	keys, ok := b.eachGroup(e.head(), i, texts)
	slices.Sort(keys)
	return slices.Compact(keys), i, ok
}

// receiveList gives what a channel's receive_list says for a listening list: slot or
// repeater where the list has the groups that follow from those, else a receive list,
// which is made where there is none.
func (b *builder) receiveList(r *channelRow, i int, label string) (string, bool) {
	if label == "" {
		return plan.ListenNone, true
	}
	e := b.heardBy[label]
	if e == nil {
		for _, l := range b.draft.all(plan.KindReceiveList) {
			if l := l.(*plan.ReceiveList); b.old.cut(l.Label.Or(l.Key.V)) == label {
				return l.Key.V, true
			}
		}
		b.problem(r.row, i, fmt.Sprintf("there is no listening list %s", saying(label)), "give the listening lists in a table of their own")
		return "", false
	}
	groups, _, ok := b.heardGroups(e)
	if !ok {
		return "", false
	}
	if rep, through := b.draft.find(r.repeater); through {
		slots := rep.(*plan.Repeater).DMR.Slots
		n := 0
		if r.says("slot") == "2" || r.old != nil && r.old.Slot == 2 {
			n = 1
		}
		if slices.Equal(groups, b.groupCalls(slots[n])) {
			return plan.ListenSlot, true
		}
		if slices.Equal(groups, b.groupCalls(slices.Concat(slots[0], slots[1]))) {
			return plan.ListenRepeater, true
		}
	}
	key, made := b.newLists[label]
	if !made {
		key = b.draft.newKey(plan.KindReceiveList, label)
		b.newLists[label] = key
		t := b.draft.add(plan.KindReceiveList, key)
		if label != key {
			b.set(t, "label", []string{label}, e.head(), e.head().column("label"))
		}
		b.set(t, "groups", groups, e.head(), -1)
	}
	return key, true
}

// groupCalls gives those of the groups that a radio listens for by a list, sorted.
func (b *builder) groupCalls(groups []plan.Value[string]) []string {
	var keys []string
	for _, v := range groups {
		g, ok := b.draft.find(plan.Thing{Kind: plan.KindGroup, Key: v.V})
		if !ok || g.(*plan.Group).Call.Or("group") == "group" {
			keys = append(keys, v.V)
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}
