package tables

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// groupOf finds the group that a row calls, by its key, else its number, else its
// label, and claims for it what the other columns say. A number that no group has makes
// one.
func (b *builder) groupOf(r *channelRow) (string, bool) {
	key, by, ok := b.findGroup(r)
	if !ok || key == "" {
		return key, ok
	}
	t := plan.Thing{Kind: plan.KindGroup, Key: key}
	for _, c := range []struct{ value, field string }{{"group.id", "id"}, {"group.label", "label"}, {"group.call", "call"}} {
		i := r.column(c.value)
		if i < 0 || r.says(c.value) == "" || c.value == by {
			continue
		}
		g, ok := b.draft.find(t)
		if !ok { // the plan refers to it, and has none
			if !b.differs(r, i) {
				continue
			}
			b.draft.add(plan.KindGroup, key)
			g, _ = b.draft.find(t)
		}
		is := plan.SectionOf(plan.KindGroup).Field(c.field).Texts(g, nil)
		same := slices.Equal(is, r.texts[i]) || c.field == "call" && len(is) == 0 && r.says(c.value) == "group" ||
			c.field == "label" && b.old.cut(g.(*plan.Group).Called()) == r.says(c.value)
		text := r.says(c.value)
		if same {
			text = first(is)
		}
		b.claim(t, c.field, text, r.row, i, !same)
	}
	return key, true
}

// findGroup gives the key of the group, and the value that it was found by.
func (b *builder) findGroup(r *channelRow) (key, by string, ok bool) {
	for _, value := range []string{"group", "group.id", "group.label"} {
		i := r.column(value)
		text := ""
		if i >= 0 {
			text = r.says(value)
		}
		switch {
		case text == "":
			continue
		case r.old != nil && !b.differs(r, i):
			return r.old.GroupKey, value, true
		case value == "group":
			return b.groupByKey(text), value, true
		case value == "group.id":
			return b.groupByID(r, text), value, true
		}
		found := b.groupsBy("label", text)
		if len(found) == 1 {
			return found[0], value, true
		}
		b.problem(r.row, i, fmt.Sprintf("%d groups are called %s", len(found), saying(text)), "give the table a column with the number of the group")
		return "", "", false
	}
	if r.old != nil && r.column("group", "group.id", "group.label") < 0 {
		return r.old.GroupKey, "", true
	}
	return "", "", true
}

func (b *builder) groupByKey(key string) string {
	if _, ok := b.draft.find(plan.Thing{Kind: plan.KindGroup, Key: key}); !ok {
		b.draft.add(plan.KindGroup, key)
	}
	return key
}

// groupByID finds a group by its number; of several with one, that of the row's label.
func (b *builder) groupByID(r *channelRow, id string) string {
	found := b.groupsBy("id", id)
	labelled := b.groupsBy("label", r.says("group.label"))
	for _, key := range found {
		if len(found) == 1 || slices.Contains(labelled, key) {
			return key
		}
	}
	if len(found) > 0 {
		return found[0]
	}
	name := r.says("group.label")
	if name == "" {
		name = "group " + id
	}
	t := b.draft.add(plan.KindGroup, b.draft.newKey(plan.KindGroup, name))
	i := r.column("group.id")
	b.set(t, "id", []string{id}, r.row, i)
	if label := r.says("group.label"); label != "" && label != t.Key {
		b.set(t, "label", []string{label}, r.row, r.column("group.label"))
	}
	if call := r.says("group.call"); call != "" && call != "group" {
		b.set(t, "call", []string{call}, r.row, r.column("group.call"))
	}
	g, _ := b.draft.find(t)
	b.knowGroup(g.(*plan.Group))
	return t.Key
}
