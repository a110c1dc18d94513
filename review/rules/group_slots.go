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

// A carried is who carries a group on one slot alone.
type carried struct {
	on   [2][]carriage
	both *plan.Repeater // the last that has it on both
}

// by reports whether the last that was noted on a slot is this repeater.
func (c *carried) by(r *plan.Repeater, slot int) bool {
	n := len(c.on[slot])
	return n > 0 && c.on[slot][n-1].repeater == r
}

// slotSplits gives the talkgroups that are on either slot, worked out once for all rules.
func slotSplits(p *review.Pass) []*slotSplit {
	type key struct{}
	return review.Once(p, key{}, func() []*slotSplit {
		by := make(map[string]*carried, p.Plan.Groups.Len())
		for _, g := range p.Plan.Groups.All() {
			if !g.Call.Bad && g.Call.Or("group") == "group" {
				by[g.Key.V] = new(carried)
			}
		}
		for _, r := range p.Plan.Repeaters.Sorted() {
			noteCarried(r, by)
		}
		var all []*slotSplit
		for _, g := range p.Plan.Groups.Sorted() {
			c := by[g.Key.V]
			if c == nil || len(c.on[0]) == 0 || len(c.on[1]) == 0 {
				continue
			}
			s := &slotSplit{group: g, few: c.on[1], many: c.on[0], slot: 2}
			if len(s.many) < len(s.few) {
				s.few, s.many, s.slot = s.many, s.few, 1
			}
			all = append(all, s)
		}
		return all
	})
}

// noteCarried notes the talkgroups that a repeater carries on one slot alone, each once.
func noteCarried(r *plan.Repeater, by map[string]*carried) {
	for _, g := range r.DMR.Slots[0] {
		if c := by[g.V]; c != nil && g.IsSet() && !c.by(r, 0) {
			c.on[0] = append(c.on[0], carriage{r, g.At})
		}
	}
	for _, g := range r.DMR.Slots[1] {
		switch c := by[g.V]; {
		case c == nil || !g.IsSet() || c.both == r || c.by(r, 1):
		case c.by(r, 0):
			c.on[0], c.both = c.on[0][:len(c.on[0])-1], r
		default:
			c.on[1] = append(c.on[1], carriage{r, g.At})
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
