package rules_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
	"pgregory.net/rapid"
)

// TestFindingsAreWhole runs every rule that looks at a plan over random plans and edits of them. None may panic, each
// finding must be complete, and what was there before must be known again.
func TestFindingsAreWhole(t *testing.T) {
	running := slices.DeleteFunc(rules.All(), func(r *review.Rule) bool { return r.Run == nil })
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		a, b := plan.Expand(old), plan.Expand(plantest.Edit(t, old))
		v, err := review.Judge(context.Background(), running, plandiff.Compare(a, b), nil, today)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range slices.Concat(v.Findings, v.Gone) {
			if len(f.About) == 0 || f.What == "" || f.Why == "" || f.Fix == "" || f.At.IsZero() {
				t.Errorf("a finding that is not whole: %+v", f)
			}
		}
		same, err := review.Judge(context.Background(), running, plandiff.Compare(a, plan.Expand(old)), nil, today)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range same.Findings {
			if f.Standing != review.Still {
				t.Errorf("nothing changed, and it is new: %+v", f)
			}
		}
	})
}

// TestOrderChangesNoFinding writes the same records in the other order, and wants the
// same findings by their IDs.
func TestOrderChangesNoFinding(t *testing.T) {
	rows := []string{"9990001,N0QRV,Ann", "9990001,N0QRW,Ben", "9990001,N0QRW,Ben in the car", "9990002,N0QRX,Cora", "9990001,N0QRY,Dan"}
	groups := []string{"  b: {id: 77}", "  a: {id: 77}", "  c: {id: 77}", "  d: {id: 78}", "  e: {id: 78, call: private}"}
	repeaters := []string{"  one: {output: 454.55, split: +5, fm: {}}", "  two: {output: 145.6, split: +0.6, fm: {}}", "  three: {output: 444.1, fm: {}}"}
	ids := func() []string {
		v, err := review.Check(context.Background(), rules.All(), load(t, map[string]string{
			"plan.yaml":     header,
			"x.yaml":        fmt.Sprintf("groups:\n%s\nrepeaters:\n%s\n", strings.Join(groups, "\n"), strings.Join(repeaters, "\n")),
			"operators.csv": "id,callsign,name\n" + strings.Join(rows, "\n") + "\n",
		}), today)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, f := range v.Findings {
			all = append(all, f.Rule+" "+f.ID())
		}
		slices.Sort(all)
		return all
	}
	one := ids()
	slices.Reverse(rows)
	slices.Reverse(groups)
	slices.Reverse(repeaters)
	if other := ids(); !slices.Equal(one, other) || len(one) < 5 {
		t.Errorf("in one order\n%q\nin the other\n%q", one, other)
	}
}
