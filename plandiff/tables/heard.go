package tables

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"passband.example/plandiff/plan"
)

// heard is a receive list as a radio holds it: the groups that some of its channels
// listen for. Two channels with the same groups have the same one.
type heard struct {
	key    string   // that of a receive list, or ridge/1 where it follows from a slot, ridge from a repeater
	label  string   // what it is called
	groups []string // keys, sorted
	list   *plan.ReceiveList
	shown  string // the label as the radio shows it, which no other list has
}

// readHeard finds the lists of the channels, those that the plan writes first by name.
func (v *view) readHeard() {
	v.listens = make(map[string]*heard)
	for _, c := range v.channels() {
		if len(c.Listens) == 0 {
			continue
		}
		groups := strings.Join(c.Listens, " ")
		h := &heard{groups: c.Listens}
		h.key, h.label, h.list = v.nameOf(c)
		if old := v.listens[groups]; old == nil || h.before(old) {
			v.listens[groups] = h
		}
	}
	for _, h := range v.listens {
		v.heard = append(v.heard, h)
	}
	slices.SortFunc(v.heard, func(a, b *heard) int {
		return cmp.Or(strings.Compare(a.key, b.key), slices.Compare(a.groups, b.groups))
	})
	v.nameHeard()
}

// nameHeard gives each list a label of its own, since channels name their list by it: its
// key where another has the label, or else a number behind it.
func (v *view) nameHeard() {
	taken := make(map[string]bool)
	for _, h := range v.heard {
		h.shown = v.cut(h.label)
		if taken[h.shown] {
			h.shown = v.cut(h.key)
		}
		for n := 2; taken[h.shown]; n++ {
			number := " " + strconv.Itoa(n)
			most := []rune(v.cut(h.label + number))
			h.shown = string(most[:max(0, len(most)-len(number))]) + number
		}
		taken[h.shown] = true
	}
}

// before prefers the list that somebody wrote, then the first by key.
func (h *heard) before(other *heard) bool {
	if (h.list != nil) != (other.list != nil) {
		return h.list != nil
	}
	return h.key < other.key
}

func (v *view) nameOf(c *plan.Channel) (key, label string, list *plan.ReceiveList) {
	switch {
	case c.ReceiveList == plan.ListenSlot && c.Repeater != nil:
		return c.Repeater.Key.V + "/" + c.Slot.String(), c.Repeater.Called() + " " + c.Slot.String(), nil
	case c.ReceiveList == plan.ListenRepeater && c.Repeater != nil:
		return c.Repeater.Key.V, c.Repeater.Called(), nil
	}
	if l, ok := v.x.Plan.ReceiveLists.Find(c.ReceiveList); ok {
		return l.Key.V, l.Label.Or(l.Key.V), l
	}
	return c.ReceiveList, c.ReceiveList, nil
}

// listOf gives the list that a channel listens for, or nil.
func (v *view) listOf(c *plan.Channel) *heard { return v.listens[strings.Join(c.Listens, " ")] }

func (v *view) heardItems() []item {
	items := make([]item, len(v.heard))
	for i, h := range v.heard {
		items[i].heard = h
	}
	return items
}

func heardValues() []*value {
	each := func(name, doc string, k kind, show func(v *view, key string) string) *value {
		return &value{name: name, doc: doc, kind: k, many: true, normal: asIs, get: func(v *view, it item) []string {
			texts := make([]string, len(it.heard.groups))
			for i, key := range it.heard.groups {
				texts[i] = show(v, key)
			}
			return texts
		}}
	}
	return []*value{
		{name: "key", doc: "the key of the receive list; ridge/1 where it follows from a slot, ridge from a repeater", normal: asIs,
			get: func(_ *view, it item) []string { return []string{it.heard.key} }},
		{name: "label", doc: "what the radio shows", normal: asIs,
			get: func(v *view, it item) []string { return []string{it.heard.shown} }},
		each("groups", "its groups, by key", words, func(_ *view, key string) string { return key }),
		each("groups.label", "its groups, by what they are called", words, (*view).groupLabel),
		each("groups.id", "its groups, by number", number, (*view).groupID),
	}
}
