package notes

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// channels tells the channels that came, went, or are used differently. One that
// no radio held before and one does now is new to members, and so the other way.
func (w *writer) channels(n *Notes) {
	var changed []Change
	var of []*plan.Channel // the channel of each change
	for _, e := range w.effects {
		switch had, has := e.old != nil && w.usable[e.old], e.new != nil && w.usable[e.new]; {
		case !had && has:
			n.New = append(n.New, w.channel(w.c.New, e.new))
		case had && !has:
			n.Gone = append(n.Gone, w.channel(w.c.Old, e.old))
		case had && has:
			if e.old.Label != e.new.Label {
				n.Relabelled = append(n.Relabelled, Pair{e.old.Label, e.new.Label})
			}
			if facts := w.differs(e); len(facts) > 0 {
				changed = append(changed, Change{Labels: []string{e.new.Label}, Facts: facts})
				of = append(of, e.new)
			}
		}
	}
	n.Changed = w.together(changed, of)
}

func (w *writer) channel(x *plan.Expansion, c *plan.Channel) Channel {
	out := Channel{Label: c.Label, Zones: w.zones[c]}
	for _, f := range plandiff.Facts(x, c) {
		if value := w.fact(x, c, f.Name, f.Value); value != "" && !slices.Contains(unsaid, f.Name) {
			out.Facts = append(out.Facts, Fact{f.Name, value})
		}
	}
	return out
}

// unsaid are facts that the radio is loaded with and nobody has to know by heart.
var unsaid = []string{"label", "listens for", "scan list", "time-out", "access"}

// differs gives the settings that differ. The label is told on its own.
func (w *writer) differs(e effect) []Differs {
	var facts []Differs
	for _, a := range e.aspects {
		if a.Name == "label" {
			continue
		}
		d := Differs{a.Name, w.fact(w.c.Old, e.old, a.Name, a.Old), w.fact(w.c.New, e.new, a.Name, a.New)}
		if a.Name == "listens for" {
			d = listens(d)
		}
		if d.Old != d.New {
			facts = append(facts, d)
		}
	}
	return facts
}

// fact says a value in the words that members know: labels and no keys.
func (w *writer) fact(x *plan.Expansion, c *plan.Channel, name, value string) string {
	switch name {
	case "receive", "transmit":
		if value != "" {
			return value + " MHz"
		}
	case "tone sent", "tone received":
		if value != "" && !strings.HasPrefix(value, "D") {
			return value + " Hz"
		}
	case "group":
		if c.Group != nil {
			return fmt.Sprintf("%s (%s)", c.Group.Called(), value)
		}
	case "listens for":
		return strings.Join(groupLabels(x, c.Listens), ", ")
	case "scan list":
		if l, ok := x.Plan.ScanLists.Find(c.ScanList); ok {
			return l.Label.Or(l.Key.V)
		}
	}
	return value
}

func groupLabels(x *plan.Expansion, keys []string) []string {
	var labels []string
	for _, key := range keys {
		if g, ok := x.Plan.Groups.Find(key); ok {
			labels = append(labels, g.Called())
		}
	}
	return labels
}

// listens tells only what came and went of the groups that a channel listens for.
func listens(d Differs) Differs {
	old, now := strings.Split(d.Old, ", "), strings.Split(d.New, ", ")
	less := func(all, but []string) string {
		return strings.Join(slices.DeleteFunc(slices.Clone(all), func(s string) bool { return slices.Contains(but, s) }), ", ")
	}
	return Differs{"also listens for", less(old, now), less(now, old)}
}

// together puts channels with the same differences into one change, and names the
// repeater where it is all of its channels.
func (w *writer) together(changed []Change, of []*plan.Channel) []Change {
	all := []Change{}
	index := make(map[string]int)
	var members [][]*plan.Channel
	for i, c := range changed {
		id := fmt.Sprint(c.Facts)
		if r := of[i].Repeater; r != nil {
			id += "\x00" + r.Key.V
		}
		at, known := index[id]
		if !known {
			index[id] = len(all)
			all, members = append(all, c), append(members, []*plan.Channel{of[i]})
			continue
		}
		all[at].Labels = append(all[at].Labels, c.Labels...)
		members[at] = append(members[at], of[i])
	}
	for i := range all {
		if r := members[i][0].Repeater; r != nil && r.Label.IsSet() && len(members[i]) > 1 && len(members[i]) == w.held(r) {
			all[i].Of = r.Label.V
		}
	}
	return all
}

// held counts the channels of a repeater that some radio holds.
func (w *writer) held(r *plan.Repeater) int {
	n := 0
	for _, c := range w.c.New.Channels {
		if c.Repeater == r && w.usable[c] {
			n++
		}
	}
	return n
}
