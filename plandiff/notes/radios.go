package notes

import (
	"fmt"
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// radios says of each class of radio why it must be loaded again.
func (w *writer) radios() []Radio {
	all := []Radio{}
	for _, f := range w.c.New.Fits {
		all = append(all, Radio{Label: f.Radio.Called(), Why: w.why(f)})
	}
	return all
}

// why counts what is different in the memory of one class of radio.
func (w *writer) why(now *plan.Fit) []string {
	why := []string{}
	say := func(n int, one, many string) {
		switch {
		case n == 1:
			why = append(why, "1 "+one)
		case n > 1:
			why = append(why, fmt.Sprintf("%d %s", n, many))
		}
	}
	old := w.fitBefore(now)
	came, went, differ := w.heldDifferently(old, now)
	say(came, "new channel", "new channels")
	say(went, "channel gone", "channels gone")
	say(differ, "channel set differently", "channels set differently")
	if old == nil {
		return append([]string{"this class of radio is new in the plan"}, why...)
	}
	lists := w.listsChanged(old, now)
	say(lists, "zone or scan list arranged differently", "zones or scan lists arranged differently")
	if digital(now) {
		say(w.touched(plan.KindMessage), "message", "messages")
		say(w.touched(plan.KindShortcut), "number key", "number keys")
		say(w.touched(plan.KindOperator), "contact", "contacts")
	}
	return why
}

// digital reports whether a class of radio holds contacts: one with DMR.
func digital(f *plan.Fit) bool {
	return len(f.Radio.Modes) == 0 || slices.ContainsFunc(f.Radio.Modes, func(m plan.Value[plan.Mode]) bool { return m.V == plan.ModeDMR })
}

func (w *writer) fitBefore(now *plan.Fit) *plan.Fit {
	for _, f := range w.c.Old.Fits {
		if w.c.Renames.Key(plan.KindRadio, f.Radio.Key.V) == now.Radio.Key.V {
			return f
		}
	}
	return nil
}

// heldDifferently counts the channels that the radio gets, loses, or holds with
// other settings.
func (w *writer) heldDifferently(old, now *plan.Fit) (came, went, differ int) {
	has := make(map[string]bool)
	changed := make(map[*plan.Channel]bool)
	for _, e := range w.effects {
		if e.new != nil && len(e.aspects) > 0 {
			changed[e.new] = true
		}
	}
	had := make(map[string]bool)
	if old != nil {
		for _, c := range old.Channels {
			had[w.c.Renames.Translate(plan.RefEntry, c.Name)] = true
		}
	}
	for _, c := range now.Channels {
		has[c.Name] = true
		switch {
		case !had[c.Name] && !w.wasOtherwise(c, had, has):
			came++
		case changed[c]:
			differ++
		}
	}
	for name := range had {
		if !has[name] {
			went++
		}
	}
	return came, went, differ
}

// wasOtherwise finds a channel that the radio held under another name.
func (w *writer) wasOtherwise(c *plan.Channel, had, has map[string]bool) bool {
	for _, e := range w.effects {
		if e.new == c && e.old != nil {
			name := w.c.Renames.Translate(plan.RefEntry, e.old.Name)
			if had[name] {
				has[name] = true
				return true
			}
		}
	}
	return false
}

// listsChanged counts the zones and scan lists of the radio that hold their
// channels in another way, or are called otherwise.
func (w *writer) listsChanged(old, now *plan.Fit) int {
	n := 0
	for _, kind := range []plan.Kind{plan.KindZone, plan.KindScanList} {
		before, after := w.fitLists(old, kind), w.fitLists(now, kind)
		seen := make(map[string]bool)
		for _, o := range before {
			key := w.c.Renames.Key(kind, o.key)
			seen[key] = true
			i := slices.IndexFunc(after, func(r roll) bool { return r.key == key })
			if i < 0 || after[i].label != o.label || w.nameNow(o.priority) != name(after[i].priority) ||
				!slices.Equal(w.names(o.members, true), w.names(after[i].members, false)) {
				n++
			}
		}
		for _, a := range after {
			if !seen[a.key] {
				n++
			}
		}
	}
	return n
}

func (w *writer) fitLists(f *plan.Fit, kind plan.Kind) []roll {
	var all []roll
	add := func(key, label string, channels []*plan.Channel, priority *plan.Channel) {
		r := roll{key: key, label: label, priority: priority}
		for _, c := range channels {
			r.members = append(r.members, plan.Member{Channel: c})
		}
		all = append(all, r)
	}
	if kind == plan.KindZone {
		for _, z := range f.Zones {
			add(z.Zone.Key.V, z.Zone.Called(), z.Channels, nil)
		}
		return all
	}
	for _, s := range f.ScanLists {
		add(s.List.Key.V, s.List.Label.Or(s.List.Key.V), s.Channels, w.first[s.List])
	}
	return all
}

func (w *writer) touched(kind plan.Kind) int {
	n := 0
	for i := range w.c.Changes {
		if c := &w.c.Changes[i]; c.Thing.Kind == kind && c.Op != plandiff.Renamed {
			n++
		}
	}
	return n
}
