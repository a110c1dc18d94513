package review

import (
	"cmp"
	"context"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A Verdict is what all rules together say of a plan, or of a change to one.
type Verdict struct {
	Findings []Finding  // what is wrong now, by place
	Gone     []Finding  // what was wrong before the change and is not any more
	Accepted []Accepted // what would be a finding, had the club not accepted it
	Skipped  string     // why the rules did not run, where they did not
	Rules    int        // how many rules ran
	Policy   Policy     // the policy it was judged by
	Change   bool       // a change was judged, not a plan alone
}

// Accepted is a finding that the club lives with, and its reason.
type Accepted struct {
	Finding Finding
	By      *plan.Acceptance
}

// Blocks reports whether something must not reach members. A change is not
// blamed for what was there before it.
func (v *Verdict) Blocks() bool {
	for _, f := range v.Findings {
		if f.Severity == Block && (f.Standing == New || !v.Change) {
			return true
		}
	}
	return false
}

// Count tells how many findings there are of a severity and standing.
func (v *Verdict) Count(severity Severity, standing Standing) int {
	n := 0
	for _, f := range v.Findings {
		if f.Severity == severity && f.Standing == standing {
			n++
		}
	}
	return n
}

// Check judges one plan by its own policy.
func Check(ctx context.Context, rules []*Rule, x *plan.Expansion, today plan.Date) (*Verdict, error) {
	j := judge{ctx: ctx, rules: rules, policy: PolicyOf(x.Plan), today: today}
	v, err := j.check(x, nil)
	if err != nil {
		return nil, err
	}
	j.renames(v, x.Plan, stillThere(x.Plan))
	j.acceptances(v, x.Plan)
	v.sort()
	return v, nil
}

// Judge judges a change by the policy of a base, by its edition, region and license,
// and by limits of its radios that are no wider: a pull request cannot waive its own
// findings. The base is the plan that the change would go into as it stands now; nil
// stands for the old plan of the comparison. It is another one where others have gone
// on since the change left it, and keys that they have renamed are followed. Each
// finding is new, or was there before, by an identity that shifted lines, other order
// and new keys do not touch.
func Judge(ctx context.Context, rules []*Rule, c *plandiff.Comparison, base *plan.Plan, today plan.Date) (*Verdict, error) {
	var toOld plan.Renames // from the keys of the base
	if base == nil {
		base = c.Old.Plan
	}
	if base != c.Old.Plan {
		toOld = plandiff.CompareRecords(base, c.Old.Plan).Renames
	}
	toNew := toOld.Then(c.Renames)
	old := judge{ctx: ctx, rules: rules, policy: PolicyOf(base).renamed(toOld), today: today}
	now := judge{ctx: ctx, rules: rules, policy: PolicyOf(base).renamed(toNew), today: today}
	before, v, err := checkBoth(
		func() (*Verdict, error) { return old.check(under(c.Old, base, toOld), nil) },
		func() (*Verdict, error) { return now.check(under(c.New, base, toNew), c) },
	)
	if err != nil {
		return nil, err
	}
	old.renames(before, c.Old.Plan, merged)
	now.renames(v, c.New.Plan, unheeded(c))
	old.acceptances(before, c.Old.Plan)
	v.Change = true
	now.policyChanges(v, c)
	now.acceptances(v, c.New.Plan)
	v.sort()
	before.sort()
	stand(v, before, c.Renames)
	return v, nil
}

// checkBoth checks two plans at a time. Nothing that one finds depends on the other.
func checkBoth(old, new func() (*Verdict, error)) (before, now *Verdict, err error) {
	done := make(chan error)
	go func() {
		var err error
		before, err = old()
		done <- err
	}()
	now, err = new()
	return before, now, cmp.Or(<-done, err)
}

// under gives a plan as it is judged by the rules of a base.
func under(x *plan.Expansion, base *plan.Plan, ren plan.Renames) *plan.Expansion {
	if judged := x.Plan.Under(base, ren); judged != x.Plan {
		return plan.Expand(judged)
	}
	return x
}

// sort brings all that was found into an order that does not depend on the order in
// which it was. Findings with one identity are counted off in it.
func (v *Verdict) sort() {
	sortFindings(v.Findings)
	slices.SortStableFunc(v.Accepted, func(a, b Accepted) int { return compareFindings(a.Finding, b.Finding) })
}

type judge struct {
	ctx    context.Context
	rules  []*Rule
	policy Policy
	today  plan.Date
}

// check runs all rules over one plan.
func (j *judge) check(x *plan.Expansion, c *plandiff.Comparison) (*Verdict, error) {
	v := &Verdict{Policy: j.policy}
	var unread []string
	for _, p := range x.Plan.Problems {
		v.Findings = append(v.Findings, problemFinding(p))
		if hides(p) && !slices.Contains(unread, p.At.File) {
			unread = append(unread, p.At.File)
		}
	}
	if len(unread) > 0 {
		v.Skipped = "the rules did not run, since part of the plan could not be read (" + strings.Join(unread, ", ") + ")"
		return v, nil
	}
	on := slices.DeleteFunc(slices.Clone(j.rules), func(r *Rule) bool {
		severity, _ := j.policy.SeverityOf(r)
		return severity == Off || r.Run == nil
	})
	found := j.run(on, x, c)
	if err := j.ctx.Err(); err != nil {
		return nil, err // some rules may have stopped half-way
	}
	v.Rules = len(on)
	for i, r := range on {
		severity, eased := j.policy.SeverityOf(r)
		for _, f := range found[i] {
			f.Rule, f.Severity, f.Eased = r.ID, severity, eased
			j.file(v, f)
		}
	}
	return v, nil
}

// run gives what each of some rules finds. As many run at a time as there are processors.
func (j *judge) run(rules []*Rule, x *plan.Expansion, c *plandiff.Comparison) [][]Finding {
	found := make([][]Finding, len(rules))
	all := &shared{done: make(map[any]*once)}
	var next atomic.Int64
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(rules) && j.ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				pass := &Pass{Context: j.ctx, Plan: x.Plan, Expansion: x, Date: j.today, Rules: j.rules, Comparison: c, shared: all}
				pass.report = func(f Finding) { found[i] = append(found[i], f) }
				rules[i].Run(pass)
			}
		})
	}
	workers.Wait()
	return found
}

// hides reports whether a problem hides a part of the plan that others refer to.
// A row of a table that cannot be read hides a person, and no more.
func hides(p plan.Problem) bool {
	return p.Rule == plan.FileRefused || p.Rule == plan.BadSyntax && path.Ext(p.At.File) != ".csv"
}

// file puts a finding where it belongs: among the accepted or the others.
func (j *judge) file(v *Verdict, f Finding) {
	by, expired := j.policy.accepts(f, j.today)
	if by != nil {
		v.Accepted = append(v.Accepted, Accepted{f, by})
		return
	}
	if expired {
		f.Also = append(f.Also, Related{Text: "it was accepted until a day that is past"})
	}
	v.Findings = append(v.Findings, f)
}

// problemFinding makes a finding of what loading says. Its identity is what is
// wrong, without the file and the other place that it may name: a record with a
// fault that was moved has no new one.
func problemFinding(p plan.Problem) Finding {
	f := Finding{Rule: p.Rule, Severity: Block, At: p.At, What: p.What, Why: p.Why, Fix: p.Fix, Values: []string{p.What}}
	if !p.Also.IsZero() {
		f.Values[0] = strings.ReplaceAll(p.What, p.Also.String(), "")
		f.Also = []Related{{At: p.Also, Text: "written before here"}}
	}
	return f
}

// stand tells which findings of the new plan were there before, and which of those
// before are gone. Findings with one identity are counted off one by one. Where the
// old plan could not be read nothing is known to have been there, and all is new.
func stand(v, before *Verdict, ren plan.Renames) {
	was := make(map[string]int)
	for _, f := range before.Findings {
		was[f.identity(ren)]++
	}
	accepted := make(map[string]int)
	for _, a := range before.Accepted {
		accepted[a.Finding.identity(ren)]++
	}
	for i := range v.Findings {
		v.Findings[i].Standing = countOff(was, v.Findings[i].ID())
	}
	for i := range v.Accepted {
		v.Accepted[i].Finding.Standing = countOff(accepted, v.Accepted[i].Finding.ID())
	}
	if v.Skipped != "" {
		return // what could not be judged is not gone
	}
	for _, f := range before.Findings {
		if countOff(was, f.identity(ren)) == Still {
			f.Standing = Gone
			v.Gone = append(v.Gone, f)
		}
	}
}

// countOff takes one finding with this identity off those that are left of it.
func countOff(left map[string]int, id string) Standing {
	if left[id] == 0 {
		return New
	}
	left[id]--
	return Still
}
