package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/rf"
)

//go:embed exposure_evaluation.md
var exposureEvaluationDoc string

// ExposureEvaluation tells of an antenna to which people come so near that an exposure evaluation is
// asked for.
var ExposureEvaluation = &review.Rule{
	ID:       "exposure-evaluation",
	Severity: review.Note, // whether it was done stands elsewhere
	Edition:  2026,
	Doc:      exposureEvaluationDoc,
	Run:      exposureEvaluation,
}

func exposureEvaluation(p *review.Pass) {
	reportNear(p, func(a *antenna, people float64) bool { return people > a.publicM && people < a.exemptM }, review.Finding{
		Why: "the exemption by distance does not cover it; " + rf.ExposureNotice,
		Fix: "see that the licensee has evaluated the site and keeps the record (47 CFR 97.13(c)); then accept this finding with that reason",
	}, "people come as near as %s to the antenna of %s")
}
