package tables

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
)

// isMembers reports whether a value shows channels, which are known only when all
// tables of channels are read.
func isMembers(v *value) bool {
	return strings.HasPrefix(v.name, "members") || v.name == "priority.label"
}

// resolve gives what the texts of a column are in a plan: keys for labels and numbers.
func (b *builder) resolve(s *sheet, e *entry, i int, values []string) ([]string, bool) {
	r := e.head()
	switch s.table.Columns[i].value.name {
	case "called":
		if len(values) == 1 && values[0] == e.thing.Key {
			return nil, true
		}
	case "groups.label", "groups.id":
		return b.eachGroup(r, i, values)
	case "calls.label", "calls.id":
		return b.called(r, i, values)
	}
	return values, true
}

func (b *builder) eachGroup(r *row, i int, values []string) ([]string, bool) {
	keys := make([]string, len(values))
	for n, text := range values {
		key, ok := b.group(text)
		if !ok {
			b.problem(r, i, fmt.Sprintf("there is no group %s, or more than one", saying(text)), "give the groups in a table of their own, or write the key of one")
			return nil, false
		}
		keys[n] = key
	}
	return keys, true
}

// called finds what a shortcut calls: a group by number or label, else as it stands.
func (b *builder) called(r *row, i int, values []string) ([]string, bool) {
	if len(values) == 0 {
		return nil, true
	}
	if key, ok := b.group(values[0]); ok {
		return []string{key}, true
	}
	return values, true
}

// group finds a group by its key, its number or its label.
func (b *builder) group(text string) (string, bool) {
	if _, ok := b.draft.find(plan.Thing{Kind: plan.KindGroup, Key: text}); ok {
		return text, true
	}
	found := b.groupsBy("id", text)
	if len(found) != 1 {
		found = b.groupsBy("label", text)
	}
	if len(found) != 1 {
		return "", false
	}
	return found[0], true
}

// groupsBy finds groups by their number or by their label, whole or as the radio shows it.
func (b *builder) groupsBy(what, text string) []string {
	if b.groups == nil {
		b.groups = make(map[string][]string)
		for _, g := range b.draft.all(plan.KindGroup) {
			b.knowGroup(g.(*plan.Group))
		}
	}
	return b.groups[what+" "+text]
}

// knowGroup makes a group found by its number and label.
func (b *builder) knowGroup(g *plan.Group) {
	names := []string{"label " + g.Called()}
	if cut := b.old.cut(g.Called()); cut != g.Called() {
		names = append(names, "label "+cut)
	}
	if g.ID.IsSet() {
		names = append(names, "id "+g.ID.V.String())
	}
	for _, name := range names {
		b.groups[name] = append(b.groups[name], g.Key.V)
	}
}

// all gives the records of a kind as the draft has them.
func (d *draft) all(kind plan.Kind) []plan.Record {
	var all []plan.Record
	for _, r := range plan.SectionOf(kind).All(d.base) {
		if now, ok := d.changed[r.Thing()]; ok {
			r = now
		}
		all = append(all, r)
	}
	for _, r := range d.added {
		if r.Thing().Kind == kind {
			all = append(all, r)
		}
	}
	return all
}
