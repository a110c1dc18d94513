package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed band_plan_law.md
var bandPlanLawDoc string

// BandPlanLaw reports a transmission that a band plan bars where band plans are law.
var BandPlanLaw = &review.Rule{
	ID:       "band-plan-law",
	Severity: review.Block, // the plan is prescribed there, so it binds like any other law
	Edition:  2026,
	Doc:      bandPlanLawDoc,
	Run:      bandPlanLaw,
}

func bandPlanLaw(p *review.Pass) { unlawful(p, ofPlan) }
