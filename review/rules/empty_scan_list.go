package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed empty_scan_list.md
var emptyScanListDoc string

// EmptyScanList reports a scan list that has no channels.
var EmptyScanList = &review.Rule{
	ID:       "empty-scan-list",
	Severity: review.Warn, // a scan that is started finds nothing
	Edition:  2026,
	Doc:      emptyScanListDoc,
	Run:      emptyScanList,
}

func emptyScanList(p *review.Pass) {
	for _, s := range p.Plan.ScanLists.All() {
		if len(s.Channels) > 0 || s.Partly() {
			continue
		}
		p.Report(review.Finding{
			At: s.Place(), About: []plan.Thing{s.Thing()},
			What: fmt.Sprintf("%s has no channels", s.Thing()),
			Why:  "a member who starts it hears nothing, and some radios refuse to load it",
			Fix:  "name the channels to sweep, or take it out",
		})
	}
}
