package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed unused.md
var unusedDoc string

// Unused reports groups and receive lists that nothing uses.
var Unused = &review.Rule{
	ID:       "unused",
	Severity: review.Note, // it does no harm, and may be meant for later
	Edition:  2026,
	Doc:      unusedDoc,
	Run:      unused,
}

func unused(p *review.Pass) {
	used := references(p.Plan)
	for _, u := range p.Expansion.Unresolved { // another rule tells of a mistyped name
		switch u.Kind {
		case "group", "group or operator":
			used[plan.Thing{Kind: plan.KindGroup, Key: u.Near}] = true
		case "receive list":
			used[plan.Thing{Kind: plan.KindReceiveList, Key: u.Near}] = true
		}
	}
	report := func(r plan.Record, by string) {
		if used[r.Thing()] {
			return
		}
		p.Report(review.Finding{
			At: r.Place(), About: []plan.Thing{r.Thing()},
			What: fmt.Sprintf("nothing uses %s: %s", r.Thing(), by),
			Why:  "no radio is loaded with it, and it must still be kept right",
			Fix:  "use it, or take it out",
		})
	}
	for _, g := range p.Plan.Groups.All() {
		report(g, "no time slot, channel, receive list or number key names it")
	}
	for _, l := range p.Plan.ReceiveLists.All() {
		report(l, "no repeater or channel names it as its receive_list")
	}
}

// references gives the groups and receive lists that some record names.
func references(p *plan.Plan) map[plan.Thing]bool {
	kinds := map[plan.Ref]plan.Kind{
		plan.RefGroup: plan.KindGroup, plan.RefCall: plan.KindGroup, plan.RefReceiveList: plan.KindReceiveList,
	}
	named := make(map[plan.Thing]bool)
	for _, s := range plan.Sections() {
		for i := range s.Fields {
			kind, ok := kinds[s.Fields[i].Ref]
			if !ok {
				continue
			}
			for _, r := range s.All(p) {
				for _, item := range s.Fields[i].Items(r) {
					named[plan.Thing{Kind: kind, Key: item.Text}] = true
				}
			}
		}
	}
	return named
}
