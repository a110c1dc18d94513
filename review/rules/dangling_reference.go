package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed dangling_reference.md
var danglingReferenceDoc string

// DanglingReference reports a name that refers to nothing in the plan.
var DanglingReference = &review.Rule{
	ID:       "dangling-reference",
	Severity: review.Block, // a radio would be loaded without the channel, group or list
	Edition:  2026,
	Doc:      danglingReferenceDoc,
	Run:      danglingReference,
}

func danglingReference(p *review.Pass) {
	for _, u := range p.Expansion.Unresolved {
		f := review.Finding{
			At: u.At, About: []plan.Thing{u.From}, Values: []string{u.Kind, u.Text},
			What: fmt.Sprintf("%s refers to the %s %q, which the plan does not have", u.From, u.Kind, u.Text),
			Why:  "members would be handed a radio without it",
			Fix:  fmt.Sprintf("write the key of a %s that is in the plan, or take the entry out", u.Kind),
		}
		if u.Near != "" {
			f.Fix = fmt.Sprintf("did you mean %s?", u.Near)
		}
		p.Report(f)
	}
}
