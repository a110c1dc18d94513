package rules

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// A carriage is how a repeater carries a group on one of its time slots.
type carriage struct {
	repeater *plan.Repeater
	at       plan.Place // of the group in the list of the slot
}

// A slotSplit is a talkgroup that some repeaters carry on one time slot and some on the
// other. Those that carry it on both count for neither: see group-on-both-slots.
type slotSplit struct {
	group     *plan.Group
	few, many []carriage // by key; of as many, the few are those on slot 2
	slot      int        // of the few
}

// alone is how many repeaters must agree for a single other one to be most likely a slip (a
// proposal of this project, no source).
const alone = 3

// odd tells whether all repeaters but one agree.
func (s *slotSplit) odd() bool { return len(s.few) == 1 && len(s.many) >= alone }

// slotSplits gives the talkgroups that are on either slot, worked out once for all rules.
func slotSplits(p *review.Pass) []*slotSplit {
	type key struct{}
	return review.Once(p, key{}, func() []*slotSplit {
		on := make(map[string]*[2][]carriage)
		for _, r := range p.Plan.Repeaters.Sorted() {
			carriedBy(r, on)
		}
		var all []*slotSplit
		for _, g := range p.Plan.Groups.Sorted() {
			slots := on[g.Key.V]
			if slots == nil || len(slots[0]) == 0 || len(slots[1]) == 0 || g.Call.Bad || g.Call.Or("group") != "group" {
				continue
			}
			s := &slotSplit{group: g, few: slots[1], many: slots[0], slot: 2}
			if len(slots[0]) < len(slots[1]) {
				s.few, s.many, s.slot = slots[0], slots[1], 1
			}
			all = append(all, s)
		}
		return all
	})
}

// carriedBy notes the groups that a repeater carries on one slot alone.
func carriedBy(r *plan.Repeater, on map[string]*[2][]carriage) {
	first := make(map[string]bool, len(r.DMR.Slots[0]))
	for _, g := range r.DMR.Slots[0] {
		first[g.V] = true
	}
	second := make(map[string]bool, len(r.DMR.Slots[1]))
	for _, g := range r.DMR.Slots[1] {
		second[g.V] = true
	}
	for slot, other := range [2]map[string]bool{second, first} {
		for _, g := range r.DMR.Slots[slot] {
			if !g.IsSet() || other[g.V] {
				continue
			}
			other[g.V] = true // twice on one slot is once
			if on[g.V] == nil {
				on[g.V] = new([2][]carriage)
			}
			on[g.V][slot] = append(on[g.V][slot], carriage{r, g.At})
		}
	}
}

// finding says which repeaters carry the group where. It is about the few, and stands at one
// that a change touched, else at the first of them.
func (s *slotSplit) finding(p *review.Pass) review.Finding {
	f := review.Finding{
		At: s.few[0].at, About: []plan.Thing{s.group.Thing()}, Values: []string{fmt.Sprintf("slot %d", s.slot)},
		What: fmt.Sprintf("%s is on slot %d of %s, and on slot %d of %s",
			s.group.Thing(), s.slot, several(repeaterKeys(s.few)), 3-s.slot, several(repeaterKeys(s.many))),
		Why:    "where the network carries it on the other slot nobody is there, and members who know the slot from one repeater look for it there on the next",
		Fix:    "ask whoever runs the repeater; where a row was copied, move the group to the right slot, and where both are right, accept the finding with that reason",
		Source: "common practice, no source",
	}
	for _, c := range s.few {
		f.About = append(f.About, c.repeater.Thing())
	}
	all := slices.Concat(s.few, s.many)
	if i := slices.IndexFunc(all, func(c carriage) bool { return touched(p, c.repeater) }); i >= 0 {
		f.At = all[i].at
	}
	for i, c := range all {
		if c.at == f.At || len(f.Also) == mostAlso {
			continue
		}
		slot := s.slot
		if i >= len(s.few) {
			slot = 3 - s.slot
		}
		f.Also = append(f.Also, review.Related{At: c.at, Text: fmt.Sprintf("on slot %d of %s", slot, c.repeater.Key.V)})
	}
	return f
}

func repeaterKeys(carriages []carriage) []string {
	keys := make([]string, len(carriages))
	for i, c := range carriages {
		keys[i] = c.repeater.Key.V
	}
	return keys
}
