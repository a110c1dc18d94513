package notes

import (
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A roll is a zone or a scan list with its channels, as one plan has it.
type roll struct {
	key, label string
	members    []plan.Member
	priority   *plan.Channel
}

func (w *writer) zoneRolls(x *plan.Expansion) []roll {
	var all []roll
	for _, z := range x.Zones {
		if w.carried[z.Zone] {
			all = append(all, roll{z.Zone.Key.V, z.Zone.Called(), z.Members, nil})
		}
	}
	return all
}

func (w *writer) scanRolls(x *plan.Expansion) []roll {
	var all []roll
	for _, s := range x.ScanLists {
		if w.carried[s.List] {
			all = append(all, roll{s.List.Key.V, s.List.Label.Or(s.List.Key.V), s.Members, s.Priority})
		}
	}
	return all
}

// lists tells the zones and scan lists that hold other channels than before, as far
// as some radio holds them.
func (w *writer) lists(n *Notes) {
	n.Zones = w.rolls(plan.KindZone, w.zoneRolls(w.c.Old), w.zoneRolls(w.c.New))
	n.ScanLists = w.rolls(plan.KindScanList, w.scanRolls(w.c.Old), w.scanRolls(w.c.New))
}

func (w *writer) rolls(kind plan.Kind, old, new []roll) []List {
	lists := []List{}
	find := func(all []roll, key string) *roll {
		for i := range all {
			if all[i].key == key {
				return &all[i]
			}
		}
		return nil
	}
	was := make(map[string]bool)
	for _, o := range old {
		o.key = w.c.Renames.Key(kind, o.key)
		was[o.key] = true
		now := find(new, o.key)
		if now == nil {
			lists = append(lists, List{Op: plandiff.Removed, Label: o.label, Came: []string{}, Went: []string{}})
			continue
		}
		if l, differs := w.roll(&o, now); differs {
			lists = append(lists, l)
		}
	}
	for _, now := range new {
		if !was[now.key] {
			lists = append(lists, List{Op: plandiff.Added, Label: now.label, Came: w.labels(now.members), Went: []string{}})
		}
	}
	return lists
}

// roll compares a list with what it was. Its channels are the same by their
// names in the plan, whatever their labels are.
func (w *writer) roll(old, now *roll) (List, bool) {
	l := List{Op: plandiff.Changed, Label: now.label, Came: []string{}, Went: []string{}}
	if old.label != now.label {
		l.Was = old.label
	}
	before, after := w.names(old.members, true), w.names(now.members, false)
	for i, m := range now.members {
		if w.usable[m.Channel] && !slices.Contains(before, after[i]) {
			l.Came = append(l.Came, m.Channel.Label)
		}
	}
	for i, m := range old.members {
		if w.usable[m.Channel] && !slices.Contains(after, before[i]) {
			l.Went = append(l.Went, m.Channel.Label)
		}
	}
	in := func(list []string) func(string) bool {
		return func(name string) bool { return !slices.Contains(list, name) }
	}
	l.Reordered = !slices.Equal(slices.DeleteFunc(slices.Clone(before), in(after)), slices.DeleteFunc(slices.Clone(after), in(before)))
	if w.nameNow(old.priority) != name(now.priority) {
		l.Priority = &Pair{label(old.priority), label(now.priority)}
	}
	return l, l.Was != "" || len(l.Came)+len(l.Went) > 0 || l.Reordered || l.Priority != nil
}

// names gives the channels of a list by their names in the new plan.
func (w *writer) names(members []plan.Member, old bool) []string {
	var names []string
	for _, m := range members {
		if old {
			names = append(names, w.nameNow(m.Channel))
		} else {
			names = append(names, m.Channel.Name)
		}
	}
	return names
}

func (w *writer) labels(members []plan.Member) []string {
	labels := []string{}
	for _, m := range members {
		if w.usable[m.Channel] {
			labels = append(labels, m.Channel.Label)
		}
	}
	return labels
}

// nameNow gives the name that a channel of the old plan has in the new one.
func (w *writer) nameNow(c *plan.Channel) string {
	return w.c.Renames.Translate(plan.RefEntry, name(c))
}

func name(c *plan.Channel) string {
	if c == nil {
		return ""
	}
	return c.Name
}

func label(c *plan.Channel) string {
	if c == nil {
		return ""
	}
	return c.Label
}
