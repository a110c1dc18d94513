package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/survey"
)

//go:embed place_too_coarse.md
var placeTooCoarseDoc string

// PlaceTooCoarse says once for a plan which stations can't be compared, because a locator names a cell
// and not a point.
var PlaceTooCoarse = &review.Rule{
	ID:       "place-too-coarse",
	Severity: review.Note, // nothing is known to be wrong
	Edition:  2026,
	Doc:      placeTooCoarseDoc,
	Run:      placeTooCoarse,
}

func placeTooCoarse(p *review.Pass) {
	found := conflictsOf(p, "place-too-coarse")
	if len(found) == 0 {
		return
	}
	first := found[0]
	f := review.Finding{
		At: first.Ours.At(), About: []plan.Thing{p.Plan.Header.Thing()}, Values: []string{fmt.Sprint(len(found))},
		What:   fmt.Sprintf("of %s it cannot be told from a locator whether they are far enough apart, such as: %s", counted(len(found), "pair", "pairs"), first.Text()),
		Why:    "a locator names a cell, not a point: one of four characters is up to 102 km off at 40 degrees, one of six up to 4.2 km, and between those bounds lies what is asked",
		Fix:    "write where the repeaters stand with lat and lon (site:), and those of neighbors in their list",
		Source: tableSource(p, first.Row),
	}
	const most = 10
	for _, c := range found[:min(len(found), most)] {
		f.Also = append(f.Also, review.Related{At: c.Ours.At(), Text: fmt.Sprintf("%s and %s: %s apart", c.Ours.Name, c.Other.Name, survey.Apart(c.Distance))})
	}
	p.Report(f)
}
