package review

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// Names of the rules that are about the policy itself. They are judged here and
// not by a Run of their own, since they need the findings of the other rules.
const (
	AcceptanceUnused  = "acceptance-unused"
	AcceptanceExpired = "acceptance-expired"
	PolicyChanged     = "policy-changed"
)

// acceptances reports those that match nothing, and those that are past. Only
// what the judged plan states itself and a rule that ran could match counts.
func (j *judge) acceptances(v *Verdict, p *plan.Plan) {
	if v.Skipped != "" {
		return
	}
	used := make(map[string]bool)
	for _, a := range v.Accepted {
		used[a.By.Key.V] = true
	}
	for _, a := range j.policy.Acceptances {
		stated, ok := p.Acceptances.Find(a.Key.V)
		if !ok || !complete(stated) || used[a.Key.V] || !j.ran(a.Rule.V) {
			continue
		}
		f := Finding{At: stated.Place(), About: []plan.Thing{stated.Thing()}}
		rule := AcceptanceUnused
		if a.Until.V.Before(j.today) {
			rule, f.Values = AcceptanceExpired, []string{a.Until.V.String()}
			f.What = fmt.Sprintf("the acceptance of %s at %s ended on %s", a.Rule.V, a.At.V, a.Until.V)
			f.Fix = "mend what it was about, or decide again and set another day"
		} else {
			f.What = fmt.Sprintf("nothing is found by %s at %s, so there is nothing to accept", a.Rule.V, a.At.V)
			f.Why = "an acceptance that is left standing would hide the fault if it came back"
			f.Fix = "take the acceptance out"
		}
		j.add(v, rule, f)
	}
}

// add files a finding under a rule that is judged here, at the severity that the
// policy gives it; nothing where the rule is not among those to run.
func (j *judge) add(v *Verdict, rule string, f Finding) {
	i := slices.IndexFunc(j.rules, func(r *Rule) bool { return r.ID == rule })
	if i < 0 {
		return
	}
	f.Rule = rule
	if f.Severity, f.Eased = j.policy.SeverityOf(j.rules[i]); f.Severity != Off {
		v.Findings = append(v.Findings, f)
	}
}

func (j *judge) ran(rule string) bool {
	return slices.ContainsFunc(j.rules, func(r *Rule) bool {
		severity, _ := j.policy.SeverityOf(r)
		return r.ID == rule && r.Run != nil && severity != Off
	})
}

// policyChanges reports each change of what is judged and how: it takes effect
// only after the merge, and somebody should have decided it.
func (j *judge) policyChanges(v *Verdict, c *plandiff.Comparison) {
	if v.Skipped != "" {
		return // what could not be read has not been taken out
	}
	for _, change := range c.Changes {
		if change.Weight != plan.Policy && !setsLimit(&change) {
			continue
		}
		j.add(v, PolicyChanged, Finding{
			At: change.At, About: []plan.Thing{change.Thing},
			What:   fmt.Sprintf("this change %s %s, which decides what is judged", verb(change.Op), change.Thing),
			Why:    "it was judged by the policy before the change; the new one counts from the next change on",
			Fix:    "let somebody who answers for the plan agree to it",
			Values: []string{change.Op.String()},
		})
	}
}

// setsLimit reports whether a change states other limits of a radio.
func setsLimit(c *plandiff.Change) bool {
	return c.Op == plandiff.Changed && slices.ContainsFunc(c.Edits, func(e plandiff.Edit) bool { return strings.HasPrefix(e.Field, "limits.") })
}

func verb(op plandiff.Op) string {
	switch op {
	case plandiff.Added:
		return "adds"
	case plandiff.Removed:
		return "takes out"
	}
	return "changes"
}

// renamed gives the policy in the keys of another plan.
func (p Policy) renamed(ren plan.Renames) Policy {
	if len(ren) == 0 {
		return p
	}
	accepted := make([]*plan.Acceptance, len(p.Acceptances))
	for i, a := range p.Acceptances {
		now := *a
		now.At.V = ren.Translate(plan.RefAcceptance, a.At.V)
		now.Key.V = plan.SectionOf(plan.KindAcceptance).DerivedKey(&now)
		accepted[i] = &now
	}
	p.Acceptances = accepted
	return p
}
