package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed license_row_unusable.md
var licenseRowUnusableDoc string

// LicenseRowUnusable reports one of the club's own license rows that can't be used.
var LicenseRowUnusable = &review.Rule{
	ID:       "license-row-unusable",
	Severity: review.Block, // what the row bars would not be judged
	Edition:  2026,
	Doc:      licenseRowUnusableDoc,
	Run:      licenseRowUnusable,
}

func licenseRowUnusable(p *review.Pass) {
	l := lawOf(p)
	if l == nil {
		return
	}
	for _, r := range p.Plan.LicenseRows.All() {
		if _, problem := clubRow(l.national, r); problem != "" {
			p.Report(review.Finding{
				At: r.Place(), About: []plan.Thing{r.Thing()},
				What:   "this row of the club's own license table can't be used: " + problem,
				Why:    "it was left out, so what it bars or allows was not judged",
				Fix:    "mend the row, or take it out; \"passband explain plan\" tells what may stand in each column",
				Source: "the columns of the table: passband explain plan",
			})
		}
	}
}
