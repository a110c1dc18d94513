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
	r := &reacher{Comparison: c, causes: all, index: index}
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

	before  map[string][]*plan.Channel // channels of the old plan by their talk path in new keys
	touched map[*plan.Channel][]int    // the causes that a channel of either plan feels
	held    map[string][]int           // the causes that a zone or scan list feels, by kind and new key
}

// lists finds the zones and scan lists that each cause reaches: those with a
// channel that feels it, and those whose own words it changed.
func (r *reacher) lists() {
	r.held = make(map[string][]int)
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
	for name, felt := range r.held {
		kind, key, _ := strings.Cut(name, " ")
		for _, i := range sortedUnique(felt) {
			reach := &r.causes[i].Reach
			if kind == plan.KindZone.String() {
				reach.Zones = append(reach.Zones, key)
			} else {
				reach.ScanLists = append(reach.ScanLists, strings.TrimPrefix(name, plan.KindScanList.String()+" "))
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
	felt := make(map[int]bool)
	if i, ok := r.index[t]; ok {
		felt[i] = true
	}
	for _, m := range members {
		for _, i := range r.touched[m.Channel] {
			felt[i] = true
		}
	}
	for i := range felt {
		r.feel(t, i)
	}
}

func (r *reacher) feel(t plan.Thing, cause int) {
	r.held[t.String()] = append(r.held[t.String()], cause)
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
	felt := make([]map[string]bool, len(r.causes))
	mark := func(radio string, causes []int) {
		for _, i := range causes {
			if felt[i] == nil {
				felt[i] = make(map[string]bool)
			}
			felt[i][radio] = true
		}
	}
	for _, side := range []*plan.Expansion{r.Old, r.New} {
		for _, f := range side.Fits {
			key := f.Radio.Key.V
			if side == r.Old {
				key = r.Renames.Key(plan.KindRadio, key)
			}
			mark(key, r.feltBy(f, key, side == r.Old))
		}
	}
	for i, radios := range felt {
		for key := range radios {
			r.causes[i].Reach.Radios = append(r.causes[i].Reach.Radios, key)
		}
		slices.Sort(r.causes[i].Reach.Radios)
	}
}

// feltBy gives the causes that a radio feels, each at least once.
func (r *reacher) feltBy(f *plan.Fit, key string, old bool) []int {
	var felt []int
	now := func(kind plan.Kind, key string) string {
		if old {
			key = r.Renames.Key(kind, key)
		}
		return plan.Thing{Kind: kind, Key: key}.String()
	}
	for _, c := range f.Channels {
		felt = append(felt, r.touched[c]...)
	}
	for _, z := range f.Zones {
		felt = append(felt, r.own(now(plan.KindZone, z.Zone.Key.V))...)
	}
	for _, s := range f.ScanLists {
		felt = append(felt, r.own(now(plan.KindScanList, s.List.Key.V))...)
	}
	for i := range r.causes {
		switch t := r.causes[i].Thing; t.Kind {
		case plan.KindRadio:
			if t.Key == key {
				felt = append(felt, i)
			}
		case plan.KindMessage, plan.KindShortcut, plan.KindOperator:
			if holdsContacts(f.Radio) {
				felt = append(felt, i)
			}
		}
	}
	return felt
}

// own gives the causes among those that a zone or list feels which are zones
// or lists themselves; the others reach the radio through its channels.
func (r *reacher) own(name string) []int {
	return slices.DeleteFunc(slices.Clone(r.held[name]), func(i int) bool {
		kind := r.causes[i].Thing.Kind
		return kind != plan.KindZone && kind != plan.KindScanList
	})
}

// holdsContacts reports whether a class of radio has messages, number keys and
// a list of operators: one with DMR.
func holdsContacts(r *plan.Radio) bool {
	return len(r.Modes) == 0 || slices.ContainsFunc(r.Modes, func(m plan.Value[plan.Mode]) bool { return m.V == plan.ModeDMR })
}
