package review

import (
	"context"
	"sync"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A Rule looks for one fault in a plan. Rules are values in the list of package
// rules; nothing registers itself.
type Rule struct {
	ID       string   // words, as a policy writes them: off-band
	Severity Severity // how bad its findings are where the policy does not say
	Edition  int      // the first edition of plans that it may block
	Doc      string   // its page, in the form that ParsePage reads
	Run      func(*Pass)
}

// A Pass is one run of a rule over a plan.
type Pass struct {
	Context   context.Context
	Plan      *plan.Plan
	Expansion *plan.Expansion
	Date      plan.Date // today, where a rule needs it
	Rules     []*Rule   // all rules that there are

	// Comparison is the change that led to the plan, or nil where one plan is
	// checked alone. A rule may name what caused a fault; whether there is one must
	// not depend on it.
	Comparison *plandiff.Comparison

	report func(Finding)
	shared *shared // for all rules of a check
}

// shared is what rules of a check work out together, by key.
type shared struct {
	mu   sync.Mutex
	done map[any]*once
}

// once is a thing that is worked out by the first rule that asks, while others wait.
type once struct {
	sync.Once
	value any
}

// Once gives what work gives, which is done once for all rules of a check that ask under
// the same key, a type of their own. None of them may change it: rules run at the same time.
func Once[T any](p *Pass, key any, work func() T) T {
	if p.shared == nil { // the rule runs alone
		return work()
	}
	p.shared.mu.Lock()
	o, ok := p.shared.done[key]
	if !ok {
		o = new(once)
		p.shared.done[key] = o
	}
	p.shared.mu.Unlock()
	o.Do(func() { o.value = work() })
	return o.value.(T)
}

// Report adds a finding. Rule and Severity are filled in by the caller of the rule.
func (p *Pass) Report(f Finding) { p.report(f) }
