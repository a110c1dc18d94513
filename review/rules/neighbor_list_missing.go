package rules

import (
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed neighbor_list_missing.md
var neighborListMissingDoc string

// NeighborListMissing reports a neighbor list that the plan names and that is not there.
var NeighborListMissing = &review.Rule{
	ID:       "neighbor-list-missing",
	Severity: review.Warn, // nothing is compared with the neighbors
	Edition:  2026,
	Doc:      neighborListMissingDoc,
	Run:      neighborListMissing,
}

func neighborListMissing(p *review.Pass) {
	list := p.Plan.Header.List
	if !list.IsSet() || slices.Contains(p.Plan.Files, list.V) {
		return
	}
	p.Report(review.Finding{
		At: list.At, About: []plan.Thing{p.Plan.Header.Thing()}, Values: []string{list.V},
		What:   fmt.Sprintf("the plan names the neighbor list %s, and there is no such file", list.V),
		Why:    "it looks as if the repeaters of others were compared with yours, and none is",
		Fix:    "put the list there, write the path from the folder of plan.yaml, or take the key out",
		Source: "the plan's own text",
	})
}
