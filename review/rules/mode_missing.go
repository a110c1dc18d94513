package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed mode_missing.md
var modeMissingDoc string

// ModeMissing reports what says neither FM nor DMR.
var ModeMissing = &review.Rule{
	ID:       "mode-missing",
	Severity: review.Block, // nobody knows how to hear it, and it makes no channel or a guessed one
	Edition:  2026,
	Doc:      modeMissingDoc,
	Run:      modeMissing,
}

func modeMissing(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.All() {
		if !r.FM.Present.Written() && !r.DMR.Present.Written() && !r.Partly() {
			p.Report(noMode(r, "it makes no channel, so no radio would hold it"))
		}
	}
	for _, c := range p.Plan.Channels.All() {
		direct := (c.Simplex.Written() || c.Receive.Written()) && !c.Path.Written()
		if direct && !c.FM.Present.Written() && !c.DMR.Present.Written() && !c.Partly() {
			p.Report(noMode(c, "a radio would be loaded with a guess"))
		}
	}
}

func noMode(r plan.Record, why string) review.Finding {
	return review.Finding{
		At: r.Place(), About: []plan.Thing{r.Thing()},
		What:   fmt.Sprintf("%s is neither FM nor DMR", r.Thing()),
		Why:    why,
		Fix:    "write fm: {} for plain FM, or dmr: with its color code and group",
		Source: "the plan's own text",
	}
}
