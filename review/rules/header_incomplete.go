package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed header_incomplete.md
var headerIncompleteDoc string

// HeaderIncomplete reports a plan that does not say its name, edition, region
// or license.
var HeaderIncomplete = &review.Rule{
	ID:       "header-incomplete",
	Severity: review.Warn, // the plan may be right; less of it is judged
	Edition:  2026,
	Doc:      headerIncompleteDoc,
	Run:      headerIncomplete,
}

func headerIncomplete(p *review.Pass) {
	h := &p.Plan.Header
	for _, key := range []struct {
		name    string
		written bool
		why     string
		fix     string
	}{
		{"plan", h.Title.Written(), "a report cannot say which plan it speaks of", "add plan: and the name of the plan"},
		{"edition", h.Edition.Written(), "it is judged by the first edition, 2026, and newer rules only warn", "add edition: and the year whose rules may block, such as 2026"},
		{"region", h.Region.Written(), "no license table or band plan is known to judge by, so transmitting off the band is not noticed", "add region: and the country, such as US"},
		{"license", h.License.Written(), "it is not judged whether members may transmit where the plan has them transmit", "add license: and the lowest class of license that the plan must be legal for"},
	} {
		if key.written {
			continue
		}
		p.Report(review.Finding{
			At: headerPlace(h), About: []plan.Thing{h.Thing()}, Values: []string{key.name},
			What: fmt.Sprintf("%s does not say %s", plan.RootFile, key.name), Why: key.why, Fix: key.fix,
		})
	}
}

// headerPlace gives the first line of the header that is there, or that of the file.
func headerPlace(h *plan.Header) plan.Place {
	for _, at := range []plan.Place{h.Title.At, h.Edition.At, h.Region.At, h.License.At} {
		if !at.IsZero() {
			return at
		}
	}
	return plan.Place{File: plan.RootFile, Line: 1, Col: 1}
}
