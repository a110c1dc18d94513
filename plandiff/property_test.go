package plandiff_test

import (
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

func compare(old, new *plan.Plan) *plandiff.Comparison {
	return plandiff.Compare(plan.Expand(old), plan.Expand(new))
}

// TestApplyMakesTheNewPlan is promise 2: the changes are a complete account.
func TestApplyMakesTheNewPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		applies(t, old, plantest.Edit(t, old))
	})
}

// TestApplyAnyPair is the same for two plans that have nothing to do with each other.
func TestApplyAnyPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { applies(t, plantest.Plan(t), plantest.Plan(t)) })
}

func applies(t *rapid.T, old, new *plan.Plan) {
	c := compare(old, new)
	got, err := plandiff.Apply(old, c.Changes)
	if err != nil {
		t.Fatalf("applying %+v: %v", c.Changes, err)
	}
	if diff := plantest.Equal(got, new); diff != "" {
		t.Fatalf("applying the changes gives another plan: %s\nchanges: %+v", diff, c.Changes)
	}
	if again := compare(got, new); !again.Empty() {
		t.Fatalf("after applying there are changes left: %+v", again.Changes)
	}
	back, err := plandiff.Apply(new, plandiff.Invert(c.Changes))
	if err != nil {
		t.Fatalf("applying the inverse of %+v: %v", c.Changes, err)
	}
	if diff := plantest.Equal(back, old); diff != "" {
		t.Fatalf("the inverse gives another plan: %s\nchanges: %+v\ninverse: %+v", diff, c.Changes, plandiff.Invert(c.Changes))
	}
}

// TestSamePlanIsEmpty compares a plan with itself, and with itself written anew.
func TestSamePlanIsEmpty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t)
		if c := compare(p, p); !c.Empty() {
			t.Fatalf("a plan differs from itself: %+v", c.Changes)
		}
		files, err := plan.Files(p)
		if err != nil {
			t.Fatal(err)
		}
		if c := compare(p, plantest.Load(t, files)); !c.Empty() {
			t.Fatalf("a plan differs from its own text: %+v", c.Changes)
		}
	})
}

// TestEveryEffectHasACause: a channel that behaves differently is filed under a
// change, and the cause reaches the zones that hold it.
func TestEveryEffectHasACause(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		new := plantest.Edit(t, old)
		c := compare(old, new)
		filed := make(map[string]bool)
		for _, cause := range c.Causes {
			for _, e := range cause.Reach.Channels {
				filed[e.Channel] = true
			}
		}
		for _, ch := range c.New.Channels {
			before := was(c, ch.Name)
			if (before == nil || before.Receive != ch.Receive || before.Transmit != ch.Transmit || before.Label != ch.Label) && !filed[ch.Name] {
				t.Fatalf("channel %s differs and no cause names it\nbefore %+v\nnow %+v\ncauses %+v", ch.Name, before, ch, c.Causes)
			}
		}
	})
}

// was gives what a channel of the new plan was in the old one, under either name.
func was(c *plandiff.Comparison, name string) *plan.Channel {
	for _, o := range c.Old.Channels {
		if c.Renames.Translate(plan.RefEntry, o.Name) == name {
			return o
		}
	}
	return nil
}
