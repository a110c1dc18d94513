package review

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A Policy is what a club has decided about findings: how bad each rule is, and
// which findings it lives with. A pull request is judged by the policy of its base.
type Policy struct {
	Edition     int
	Severities  []*plan.Severity
	Acceptances []*plan.Acceptance
}

// PolicyOf gives the policy that a plan states. A plan without an edition is judged
// by the first one: leaving a line out must not open the door.
func PolicyOf(p *plan.Plan) Policy {
	return Policy{Edition: p.Header.Edition.Or(plan.FirstEdition), Severities: p.Severities.Sorted(), Acceptances: p.Acceptances.Sorted()}
}

// SeverityOf gives how bad the findings of a rule are under the policy, and why
// they are milder than the rule says, if they are.
func (p Policy) SeverityOf(r *Rule) (Severity, string) {
	s, eased := r.Severity, ""
	for _, set := range p.Severities {
		if set.Key.V == r.ID && set.Level.IsSet() {
			s, _ = ParseSeverity(set.Level.V) // loading let no other word through
			if s < r.Severity {
				eased = "by the policy of the plan"
			}
		}
	}
	if s == Block && r.Edition > p.Edition {
		s, eased = Warn, "the rule is newer than the plan's edition"
	}
	return s, eased
}

// accepts gives the acceptance that covers a finding on this day, if any, and
// whether one would but for its end.
func (p Policy) accepts(f Finding, today plan.Date) (by *plan.Acceptance, expired bool) {
	for _, a := range p.Acceptances {
		if a.Rule.V != f.Rule || !complete(a) || !slices.ContainsFunc(f.About, func(t plan.Thing) bool { return names(a.At.V, t) }) {
			continue
		}
		if a.Until.V.Before(today) {
			expired = true
			continue
		}
		return a, false
	}
	return nil, expired
}

// complete reports whether an acceptance has all that makes it count.
func complete(a *plan.Acceptance) bool {
	return a.Rule.IsSet() && a.At.IsSet() && a.Until.IsSet() && a.Reason.IsSet()
}

// names reports whether a text in an acceptance names the thing: by its key, or
// by kind and key.
func names(at string, t plan.Thing) bool {
	return at == t.Key || strings.EqualFold(at, t.String())
}
