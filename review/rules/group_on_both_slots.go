package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed group_on_both_slots.md
var groupOnBothSlotsDoc string

// GroupOnBothSlots reports a group that a repeater carries on both time slots.
var GroupOnBothSlots = &review.Rule{
	ID:       "group-on-both-slots",
	Severity: review.Warn, // it works on the air, and is usually a slip
	Edition:  2026,
	Doc:      groupOnBothSlotsDoc,
	Run:      groupOnBothSlots,
}

func groupOnBothSlots(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		first := make(map[string]plan.Place)
		for _, g := range r.DMR.Slots[0] {
			if _, seen := first[g.V]; g.IsSet() && !seen {
				first[g.V] = g.At
			}
		}
		for _, g := range r.DMR.Slots[1] {
			at, both := first[g.V]
			if !g.IsSet() || !both {
				continue
			}
			delete(first, g.V) // told once
			group := plan.Thing{Kind: plan.KindGroup, Key: g.V}
			p.Report(review.Finding{
				At: g.At, About: []plan.Thing{r.Thing(), group},
				What:   fmt.Sprintf("%s carries %s on both time slots", r.Thing(), group),
				Why:    "members who choose one slot do not hear those on the other, and each call takes up one of the two",
				Fix:    "keep it on the slot where the network carries it, and take it off the other",
				Source: "common practice, no source",
				Also:   []review.Related{{At: at, Text: "on slot 1 here"}},
			})
		}
	}
}
