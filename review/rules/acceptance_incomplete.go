package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed acceptance_incomplete.md
var acceptanceIncompleteDoc string

// AcceptanceIncomplete reports an acceptance that does not count, since it does
// not say all that it must.
var AcceptanceIncomplete = &review.Rule{
	ID:       "acceptance-incomplete",
	Severity: review.Block, // the finding is not accepted, though it looks so
	Edition:  2026,
	Doc:      acceptanceIncompleteDoc,
	Run:      acceptanceIncomplete,
}

func acceptanceIncomplete(p *review.Pass) {
	for _, a := range p.Plan.Acceptances.All() {
		var missing []string
		for _, key := range []struct {
			name    string
			written bool
		}{
			{"rule", a.Rule.Written()}, {"at", a.At.Written()}, {"until", a.Until.Written()}, {"reason", a.Reason.Written()},
		} {
			if !key.written {
				missing = append(missing, key.name)
			}
		}
		if len(missing) == 0 || a.Partly() {
			continue
		}
		p.Report(review.Finding{
			At: a.Place(), About: []plan.Thing{a.Thing()}, Values: missing,
			What: fmt.Sprintf("this acceptance does not say %s", several(missing)),
			Why:  "it does not count without: somebody must be able to ask later why, and it must come to an end",
			Fix:  fmt.Sprintf("add %s", several(missing)),
		})
	}
}
