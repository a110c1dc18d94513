package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed group_twice_on_slot.md
var groupTwiceOnSlotDoc string

// GroupTwiceOnSlot reports a group that stands twice in the list of one time slot.
var GroupTwiceOnSlot = &review.Rule{
	ID:       "group-twice-on-slot",
	Severity: review.Warn, // the second one has no effect, and another was perhaps meant
	Edition:  2026,
	Doc:      groupTwiceOnSlotDoc,
	Run:      groupTwiceOnSlot,
}

func groupTwiceOnSlot(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		for i, groups := range r.DMR.Slots {
			slot := signal.Slot(i + 1)
			seen := make(map[string]plan.Place)
			for _, g := range groups {
				if !g.IsSet() {
					continue
				}
				if at, again := seen[g.V]; again {
					p.Report(listedAgain(r, slot, g, at))
					continue
				}
				seen[g.V] = g.At
			}
		}
	}
}

func listedAgain(r *plan.Repeater, slot signal.Slot, g plan.Value[string], first plan.Place) review.Finding {
	group := plan.Thing{Kind: plan.KindGroup, Key: g.V}
	return review.Finding{
		At: g.At, About: []plan.Thing{r.Thing(), group}, Values: []string{slot.String()},
		What:   fmt.Sprintf("%s lists %s twice on slot %s", r.Thing(), group, slot),
		Why:    "it makes one channel however often it stands there, so another group was perhaps meant",
		Fix:    "write the group that was meant, or take one out",
		Source: "the plan's own text",
		Also:   []review.Related{{At: first, Text: "the first time"}},
		Mend:   mendItem(r, g.At, func(string) []string { return nil }),
	}
}
