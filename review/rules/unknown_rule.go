package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed unknown_rule.md
var unknownRuleDoc string

// UnknownRule reports a policy that names a rule which does not exist.
var UnknownRule = &review.Rule{
	ID:       "unknown-rule",
	Severity: review.Block, // what was decided has no effect
	Edition:  2026,
	Doc:      unknownRuleDoc,
	Run:      unknownRule,
}

func unknownRule(p *review.Pass) {
	known := make(map[string]bool)
	var ids []string
	for _, r := range p.Rules {
		known[r.ID] = true
		ids = append(ids, r.ID)
	}
	report := func(r plan.Record, rule plan.Value[string]) {
		if !rule.IsSet() || known[rule.V] {
			return
		}
		f := review.Finding{
			At: rule.At, About: []plan.Thing{r.Thing()}, Values: []string{rule.V},
			What: fmt.Sprintf("there is no rule %q", rule.V),
			Why:  "what was decided here has no effect",
			Fix:  "write the name of a rule as a finding shows it",
		}
		if near := plan.Nearest(rule.V, ids); near != "" {
			f.Fix = fmt.Sprintf("did you mean %s?", near)
		}
		p.Report(f)
	}
	for _, s := range p.Plan.Severities.All() {
		report(s, s.Key)
	}
	for _, a := range p.Plan.Acceptances.All() {
		report(a, a.Rule)
	}
}
