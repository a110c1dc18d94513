package plandiff

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A Cause is a record that somebody edited, with all changes to it and all that
// behaves differently because of them.
type Cause struct {
	Thing   plan.Thing
	Changes []Change
	Weight  plan.Weight // of the heaviest change
	Reach   Reach
}

// Reach is what behaves differently because of a cause.
type Reach struct {
	Channels  []Effect
	Zones     []string // keys of zones that hold one of the channels, or hold other channels than before
	ScanLists []string
	Radios    []string // keys of the classes of radio that must be loaded again
}

// An Effect is what a change does to one channel.
type Effect struct {
	Op      Op // Added, Removed, Renamed or Changed
	Channel string
	Was     string   // its name before, where it had another
	Aspects []Aspect // what differs; empty for a channel that came or went
}

// An Aspect is one thing about a channel that differs.
type Aspect struct {
	Name     string // transmit, tone sent, label, ...
	Old, New string // as a person would say them; "" where there is none
	Weight   plan.Weight
}

// causes puts the changes of each record together, and finds what they reach.
func causes(c *Comparison) []Cause {
	all, index := grouped(c.Changes)
	if len(all) == 0 {
		return nil
	}
	r := &reacher{Comparison: c, causes: all, index: index, kinds: make(map[plan.Kind]bool)}
	for _, cause := range all {
		r.kinds[cause.Thing.Kind] = true
	}
	r.channels()
	r.lists()
	r.radios()
	return r.causes
}

// grouped puts the changes of each record together.
func grouped(changes []Change) (all []Cause, index map[plan.Thing]int) {
	index = make(map[plan.Thing]int)
	for _, change := range changes {
		i, known := index[change.Thing]
		if !known {
			i = len(all)
			index[change.Thing] = i
			all = append(all, Cause{Thing: change.Thing, Weight: change.Weight})
		}
		all[i].Changes = append(all[i].Changes, change)
		all[i].Weight = min(all[i].Weight, change.Weight)
	}
	return all, index
}

type reacher struct {
	*Comparison
	causes []Cause
	index  map[plan.Thing]int
	kinds  map[plan.Kind]bool // of the causes

	before  func() map[string][]*plan.Channel // channels of the old plan by their talk path in new keys
	touched map[*plan.Channel][]int           // the causes that a channel of either plan feels
	held    map[plan.Thing][]int              // the causes that a zone or scan list feels, by kind and new key
	set     causeSet                          // for felt
}

// lists finds the zones and scan lists that each cause reaches: those with a
// channel that feels it, and those whose own words it changed.
func (r *reacher) lists() {
	r.held = make(map[plan.Thing][]int)
	for _, z := range r.Old.Zones {
		r.list(plan.KindZone, r.Renames.Key(plan.KindZone, z.Zone.Key.V), z.Members)
	}
	for _, z := range r.New.Zones {
		r.list(plan.KindZone, z.Zone.Key.V, z.Members)
	}
	for _, s := range r.Old.ScanLists {
		r.list(plan.KindScanList, r.Renames.Key(plan.KindScanList, s.List.Key.V), s.Members)
	}
	for _, s := range r.New.ScanLists {
		r.list(plan.KindScanList, s.List.Key.V, s.Members)
	}
	r.included()
	for t, felt := range r.held {
		for _, i := range sortedUnique(felt) {
			reach := &r.causes[i].Reach
			if t.Kind == plan.KindZone {
				reach.Zones = append(reach.Zones, t.Key)
			} else {
				reach.ScanLists = append(reach.ScanLists, t.Key)
			}
		}
	}
	for i := range r.causes {
		slices.Sort(r.causes[i].Reach.Zones)
		slices.Sort(r.causes[i].Reach.ScanLists)
	}
}

func sortedUnique(numbers []int) []int {
	sorted := slices.Sorted(slices.Values(numbers))
	return slices.Compact(sorted)
}

// list notes the causes that a zone or scan list feels.
func (r *reacher) list(kind plan.Kind, key string, members []plan.Member) {
	t := plan.Thing{Kind: kind, Key: key}
	felt := r.felt()
	if i, ok := r.index[t]; ok && felt.add(i) {
		r.feel(t, i)
	}
	for i := range members {
		for _, cause := range r.touched[members[i].Channel] {
			if felt.add(cause) {
				r.feel(t, cause)
			}
		}
	}
}

// felt gives an empty set of causes; what was in the one before is forgotten.
func (r *reacher) felt() *causeSet {
	if r.set.in == nil {
		r.set.in = make([]int, len(r.causes))
	}
	r.set.round++
	return &r.set
}

// causeSet is a set of causes, which is emptied at no cost.
type causeSet struct {
	in    []int // by cause: the round in which it was put in
	round int
}

// add reports whether the cause is new to the set.
func (s *causeSet) add(cause int) bool {
	fresh := s.in[cause] != s.round
	s.in[cause] = s.round
	return fresh
}

func (r *reacher) feel(t plan.Thing, cause int) {
	r.held[t] = append(r.held[t], cause)
}

// included lets zones feel the changes of the zones that stand in them, at whatever
// depth. The work is bounded as that of plan.Expand is, so that only a plan that is told
// to be too large can lack some of it.
func (r *reacher) included() {
	holders := make(map[string][]string) // of a zone: those in which it stands
	for _, z := range r.New.Plan.Zones.All() {
		for _, entry := range z.Channels {
			if key, ok := strings.CutPrefix(entry.V, "zone:"); ok {
				holders[key] = append(holders[key], z.Key.V)
			}
		}
	}
	steps := 0
	for i := range r.causes {
		changed := r.causes[i].Thing
		if changed.Kind != plan.KindZone {
			continue
		}
		seen := map[string]bool{changed.Key: true}
		for queue := []string{changed.Key}; len(queue) > 0 && steps < plan.MaxMembers; queue = queue[1:] {
			steps += 1 + len(holders[queue[0]])
			for _, holder := range holders[queue[0]] {
				if !seen[holder] {
					seen[holder] = true
					queue = append(queue, holder)
					r.feel(plan.Thing{Kind: plan.KindZone, Key: holder}, i)
				}
			}
		}
	}
}

// radios finds the classes of radio that must be loaded again: those that hold
// a channel, zone or list that feels a cause, and those whose own memory changed.
func (r *reacher) radios() {
	for _, side := range []*plan.Expansion{r.Old, r.New} {
		for _, f := range side.Fits {
			key := f.Radio.Key.V
			if side == r.Old {
				key = r.Renames.Key(plan.KindRadio, key)
			}
			for _, i := range r.feltBy(f, key, side == r.Old) {
				reach := &r.causes[i].Reach
				reach.Radios = append(reach.Radios, key)
			}
		}
	}
	for i := range r.causes {
		reach := &r.causes[i].Reach
		slices.Sort(reach.Radios)
		reach.Radios = slices.Compact(reach.Radios)
	}
}

// feltBy gives the causes that a radio feels.
func (r *reacher) feltBy(f *plan.Fit, key string, old bool) []int {
	var all []int
	felt := r.felt()
	feel := func(causes ...int) {
		for _, i := range causes {
			if felt.add(i) {
				all = append(all, i)
			}
		}
	}
	now := func(kind plan.Kind, key string) plan.Thing {
		if old {
			key = r.Renames.Key(kind, key)
		}
		return plan.Thing{Kind: kind, Key: key}
	}
	for _, c := range f.Channels {
		feel(r.touched[c]...)
	}
	for _, z := range f.Zones {
		feel(r.own(now(plan.KindZone, z.Zone.Key.V))...)
	}
	for _, s := range f.ScanLists {
		feel(r.own(now(plan.KindScanList, s.List.Key.V))...)
	}
	for i := range r.causes {
		switch t := r.causes[i].Thing; t.Kind {
		case plan.KindRadio:
			if t.Key == key {
				feel(i)
			}
		case plan.KindMessage, plan.KindShortcut, plan.KindOperator:
			if holdsContacts(f.Radio) {
				feel(i)
			}
		}
	}
	return all
}

// own gives the causes among those that a zone or list feels which are zones
// or lists themselves; the others reach the radio through its channels.
func (r *reacher) own(t plan.Thing) []int {
	return slices.DeleteFunc(slices.Clone(r.held[t]), func(i int) bool {
		kind := r.causes[i].Thing.Kind
		return kind != plan.KindZone && kind != plan.KindScanList
	})
}

// holdsContacts reports whether a class of radio has messages, number keys and
// a list of operators: one with DMR.
func holdsContacts(r *plan.Radio) bool {
	return len(r.Modes) == 0 || slices.ContainsFunc(r.Modes, func(m plan.Value[plan.Mode]) bool { return m.V == plan.ModeDMR })
}
