package tables

import (
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// randomPlan draws a plan whose values have places, and a radio of it or none.
func randomPlan(t *rapid.T) (x *plan.Expansion, radio string) {
	files, err := plan.Files(plantest.Plan(t))
	if err != nil {
		t.Fatal(err)
	}
	x = plan.Expand(plantest.Load(t, files))
	radios := []string{""}
	for _, f := range x.Fits {
		radios = append(radios, f.Radio.Key.V)
	}
	return x, rapid.SampledFrom(radios).Draw(t, "radio")
}

// TestBackIntoTheSamePlan writes the tables of any plan, for any radio, and reads them
// back: nothing has changed.
func TestBackIntoTheSamePlan(t *testing.T) {
	neutral, err := Neutral()
	if err != nil {
		t.Fatal(err)
	}
	all := everything(t, whole)
	rapid.Check(t, func(t *rapid.T) {
		x, radio := randomPlan(t)
		l := rapid.SampledFrom([]*Layout{neutral, all}).Draw(t, "layout")
		out, err := Write(x, radio, l)
		if err != nil {
			t.Fatal(err)
		}
		in, err := Read(x, radio, l, out.Files)
		if err != nil {
			t.Fatal(err)
		}
		if len(in.Problems) > 0 {
			t.Fatalf("%d problems, the first: %s", len(in.Problems), in.Problems[0].Error())
		}
		if c := plandiff.Compare(x, plan.Expand(in.Plan)); !c.Empty() {
			t.Fatalf("%s %s: %v", c.Changes[0].Op, c.Changes[0].Thing, c.Changes[0].Edits)
		}
	})
}

// TestBackIntoNoPlan writes some fields of any plan and makes a plan of the tables: what
// differs was told to be missing.
func TestBackIntoNoPlan(t *testing.T) {
	nothing, tb := plan.Expand(new(plan.Plan)), t
	rapid.Check(t, func(t *rapid.T) {
		x, _ := randomPlan(t)
		pair := rapid.Bool().Draw(t, "pair") // what a split comes to hangs on the output
		l := everything(tb, func(s *source, v *value) bool {
			if s.kind == plan.KindRepeater && (v.name == "output" || v.name == "input" || v.name == "split") {
				return pair
			}
			return fieldsAlone(s, v) && (v.name == "key" || required(s, v) || rapid.IntRange(0, 9).Draw(t, s.name+v.name) < 8)
		})
		out, err := Write(x, "", l)
		if err != nil {
			t.Fatal(err)
		}
		in, err := Read(nothing, "", l, out.Files)
		if err != nil {
			t.Fatal(err)
		}
		if len(in.Problems) > 0 {
			t.Fatalf("%d problems, the first: %s", len(in.Problems), in.Problems[0].Error())
		}
		told := make(map[plan.Kind]map[string]bool)
		for _, m := range out.Missing {
			if told[m.Kind] == nil {
				told[m.Kind] = map[string]bool{}
			}
			told[m.Kind][m.Field] = true
		}
		for _, c := range plandiff.Compare(x, plan.Expand(in.Plan)).Changes {
			for _, e := range c.Edits {
				if !told[c.Thing.Kind][e.Field] && e.Form != plan.Flag {
					t.Fatalf("%s %s: %s was %q and is %q, and nobody said so", c.Op, c.Thing, e.Field, e.Old, e.New)
				}
			}
		}
	})
}

// required names the fields without which a row is not the record that it was.
func required(s *source, v *value) bool {
	return s.kind == plan.KindOperator || s.kind == plan.KindMessage || s.kind == plan.KindShortcut
}
