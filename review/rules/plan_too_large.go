package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed plan_too_large.md
var planTooLargeDoc string

// PlanTooLarge reports zones and scan lists that together hold more channels
// than passband works out.
var PlanTooLarge = &review.Rule{
	ID:       "plan-too-large",
	Severity: review.Block, // what lies beyond is not judged
	Edition:  2026,
	Doc:      planTooLargeDoc,
	Run:      planTooLarge,
}

func planTooLarge(p *review.Pass) {
	if p.Expansion.Overflow.IsZero() {
		return
	}
	p.Report(review.Finding{
		At: p.Expansion.Overflow, About: []plan.Thing{p.Plan.Header.Thing()},
		What: fmt.Sprintf("up to here the zones and scan lists hold %d million channels together, the most that passband works out", plan.MaxMembers/1_000_000),
		Why:  "what comes after is left out and not judged",
		Fix:  "look for a * in entries that stands for more than was meant",
	})
}
