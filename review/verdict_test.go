package review_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

// TestBlocks tells which verdicts keep a change from being merged.
func TestBlocks(t *testing.T) {
	sound := edited(t, hills, []string{"ridge: {output", "ridge: {callsign: N0QRW, output"})
	for _, c := range []struct {
		name, why string
		verdict   *review.Verdict
		want      bool
	}{
		{"a plan", "one finding that blocks is enough", check(t, someRules(), hills), true},
		{"a plan with warnings", "a person decides", check(t, someRules(), sound), false},
		{"what was there before", "a change is not blamed for it", judge(t, someRules(), hills, hills), false},
		{"what the change brings", "it is", judge(t, someRules(), sound, hills), true},
		{"what the change mends", "it is thanked", judge(t, someRules(), hills, sound), false},
		{"cannot be read", "nothing is known to be right", judge(t, someRules(), sound, sound+"zones: {}\n"), true},
		{"could not be read before either", "the change has not made it worse", judge(t, someRules(), sound+"zones: {}\n", sound+"zones: {}\n"), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.verdict.Blocks(); got != c.want {
				t.Errorf("%s: got %t with %q", c.why, got, told(c.verdict))
			}
		})
	}
}

func TestCount(t *testing.T) {
	v := judge(t, someRules(), hills, edited(t, hills, []string{"callsign: N0QRV, ", ""}))
	for _, c := range []struct {
		severity review.Severity
		standing review.Standing
		want     int
	}{
		{review.Block, review.New, 1}, {review.Block, review.Still, 1}, {review.Note, review.Still, 2}, {review.Warn, review.New, 0},
	} {
		if got := v.Count(c.severity, c.standing); got != c.want {
			t.Errorf("%s %s: %d, want %d", c.severity, c.standing, got, c.want)
		}
	}
}

// TestCancelled ends the context before, between and in the last of the rules, and
// wants no verdict: half of one would look like the whole.
func TestCancelled(t *testing.T) {
	for _, at := range []int{-1, 0, 1, 2} {
		t.Run(fmt.Sprint(at), func(t *testing.T) {
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			if at < 0 {
				cancel()
			}
			var rules []*review.Rule
			for i := range 3 {
				rules = append(rules, &review.Rule{ID: fmt.Sprintf("r%d", i), Severity: review.Block, Run: func(*review.Pass) {
					if i == at {
						cancel()
					}
				}})
			}
			x := expand(t, hills)
			if v, err := review.Check(ctx, rules, x, today); v != nil || !errors.Is(err, context.Canceled) {
				t.Errorf("Check gives %+v and %v", v, err)
			}
			if v, err := review.Judge(ctx, rules, plandiff.Compare(x, x), nil, today); v != nil || !errors.Is(err, context.Canceled) {
				t.Errorf("Judge gives %+v and %v", v, err)
			}
		})
	}
}

// TestSameBytes judges a change over and over by a rule that finds things in no
// order: findings at one place, some with one identity, some accepted.
func TestSameBytes(t *testing.T) {
	rules := append(someRules(), &review.Rule{ID: "shuffled", Severity: review.Warn, Edition: 2026, Run: func(p *review.Pass) {
		places := map[int32]string{}
		for i := range int32(20) {
			places[i] = []string{"ridge", "call"}[i%2]
		}
		for i, key := range places { // in another order each time
			p.Report(review.Finding{At: plan.Place{File: "plan.yaml", Line: 1 + i/4}, About: []plan.Thing{{Kind: plan.KindRepeater, Key: key}},
				Values: []string{fmt.Sprint(i % 3)}, What: "something"})
		}
	}})
	accept := "rule: shuffled, at: call, until: 2027-06-01, reason: a test"
	old, now := expand(t, policed("2026", "", accept)), expand(t, edited(t, policed("2026", "", accept), []string{"ridge:", "summit:"}))
	c := plandiff.Compare(old, now)
	var first string
	for i := range 50 {
		v, err := review.Judge(context.Background(), rules, c, nil, today)
		if err != nil {
			t.Fatal(err)
		}
		bytes, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = string(bytes)
		} else if string(bytes) != first {
			t.Fatalf("run %d gives other bytes: %s", i, cmp.Diff(first, string(bytes)))
		}
	}
}

// TestOff wants a rule that is off not to run at all, and one without Run to count
// for none.
func TestOff(t *testing.T) {
	ran := 0
	rules := []*review.Rule{
		{ID: "one", Severity: review.Block, Run: func(*review.Pass) { ran++ }},
		{ID: "two", Severity: review.Block, Run: func(*review.Pass) { ran++ }},
		{ID: "three", Severity: review.Off, Run: func(*review.Pass) { ran++ }},
		{ID: "four", Severity: review.Block},
	}
	if v := check(t, rules, "plan: A\nreview: {severity: {two: off}}\n"); v.Rules != 1 || ran != 1 {
		t.Errorf("%d ran, and the verdict says %d", ran, v.Rules)
	}
}

func TestSeverity(t *testing.T) {
	for _, s := range []review.Severity{review.Off, review.Note, review.Warn, review.Block} {
		if got, err := review.ParseSeverity(s.String()); got != s || err != nil {
			t.Errorf("%s is read as %s, %v", s, got, err)
		}
	}
	for _, text := range []string{"", "Block", "error", "block "} {
		if s, err := review.ParseSeverity(text); err == nil || s != review.Off {
			t.Errorf("%q is read as %s", text, s)
		}
	}
}
