package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed region_without_table.md
var regionWithoutTableDoc string

// RegionWithoutTable says that national law was not judged, or only in part.
var RegionWithoutTable = &review.Rule{
	ID:       "region-without-table",
	Severity: review.Note, // the plan can't help it; a reader should know what was judged
	Edition:  2026,
	Doc:      regionWithoutTableDoc,
	Run:      regionWithoutTable,
}

func regionWithoutTable(p *review.Pass) {
	l := lawOf(p)
	if l == nil || l.tables.Fallback() == "" {
		return
	}
	region := p.Plan.Header.Region
	p.Report(review.Finding{
		At: region.At, About: []plan.Thing{p.Plan.Header.Thing()}, Values: []string{l.tables.Code},
		What:   fmt.Sprintf("region %s: %s", l.tables.Code, l.tables.Fallback()),
		Why:    "many countries allow less than their ITU Region, so a channel that passes here may still be off the band; " + answers,
		Fix:    "compare the channels with the rules of your country",
		Source: "the license tables of this program",
	})
}
