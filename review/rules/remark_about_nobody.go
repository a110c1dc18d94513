package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed remark_about_nobody.md
var remarkAboutNobodyDoc string

// RemarkAboutNobody reports a coordinator's remark whose other party nobody knows.
var RemarkAboutNobody = &review.Rule{
	ID:       "remark-about-nobody",
	Severity: review.Warn, // it looks as if the pair were spoken of
	Edition:  2026,
	Doc:      remarkAboutNobodyDoc,
	Run:      remarkAboutNobody,
}

func remarkAboutNobody(p *review.Pass) {
	strangers := surveyOf(p).Strangers(p.Plan)
	for _, c := range p.Plan.Coordinations.Sorted() {
		near, strange := strangers[c]
		if !strange {
			continue
		}
		fix := "write the key or the callsign of the other repeater, or add it to the neighbor list"
		if near != "" {
			fix = fmt.Sprintf("did you mean %s?", near)
		}
		p.Report(review.Finding{
			At: c.With.At, About: []plan.Thing{c.Thing()}, Values: []string{c.With.V},
			What:   fmt.Sprintf("the remark %s is about %q, which is no repeater of the plan or of its neighbor list", c.Key.V, c.With.V),
			Why:    "it has no effect: what it was to answer stays as grave as it was",
			Fix:    fix,
			Source: "the plan's own text",
		})
	}
}
