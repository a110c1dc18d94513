package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed group_id_missing.md
var groupIDMissingDoc string

// GroupIDMissing reports a group without the number that a radio would call.
var GroupIDMissing = &review.Rule{
	ID:       "group-id-missing",
	Severity: review.Block, // without a number the contact cannot be made
	Edition:  2026,
	Doc:      groupIDMissingDoc,
	Run:      groupIDMissing,
}

func groupIDMissing(p *review.Pass) {
	for _, g := range p.Plan.Groups.All() {
		if g.ID.Written() || g.Partly() {
			continue
		}
		p.Report(review.Finding{
			At: g.Place(), About: []plan.Thing{g.Thing()},
			What:   fmt.Sprintf("%s has no id", g.Thing()),
			Why:    "the number is what a radio sends; without it nobody can call the group or hear it",
			Fix:    "write its number: id: 99931",
			Source: "ETSI TS 102 361-1 annex A, table A.1 (second-hand)",
		})
	}
}
