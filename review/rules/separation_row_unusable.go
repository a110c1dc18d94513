package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/survey"
)

//go:embed separation_row_unusable.md
var separationRowUnusableDoc string

// SeparationRowUnusable reports one of the club's own separation rows that can't be used.
var SeparationRowUnusable = &review.Rule{
	ID:       "separation-row-unusable",
	Severity: review.Warn, // the published rows stand in its place
	Edition:  2026,
	Doc:      separationRowUnusableDoc,
	Run:      separationRowUnusable,
}

func separationRowUnusable(p *review.Pass) {
	for _, r := range p.Plan.SeparationRows.All() {
		if _, err := survey.OwnRow(r); err != nil {
			p.Report(review.Finding{
				At: r.Place(), About: []plan.Thing{r.Thing()},
				What:   "this row of " + plan.SeparationFile + " cannot be used: " + err.Error(),
				Why:    "the row published for the region, or the default, counts in its place, and may ask another distance than your coordinator",
				Fix:    "correct the row, or take it out",
				Source: "the columns of the table: passband explain plan",
			})
		}
	}
}
