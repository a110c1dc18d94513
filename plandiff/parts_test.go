package plandiff_test

import (
	"reflect"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// TestPartsTellWhatTheWholeTells: where CompareParts tells anything, it is what
// Compare tells of the whole plans, for any choice of records that leaves out none
// that differ.
func TestPartsTellWhatTheWholeTells(t *testing.T) {
	told := 0
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		new := plantest.Edit(t, old)
		whole := compare(old, new)
		keep := rapid.IntRange(0, 3).Draw(t, "of those that are the same")
		var parts [2]*plan.Plan
		for i, p := range []*plan.Plan{old, new} {
			parts[i] = part(t, p, []*plan.Plan{new, old}[i], keep)
			parts[i].Files = p.Files
		}
		c := plandiff.CompareParts(parts[0], parts[1], func() plan.Mentions { return mentionsIn(old) })
		if c == nil {
			return
		}
		told++
		forgetAnchors(c.Changes) // the neighbors of what is gone may be among those left out here
		forgetAnchors(whole.Changes)
		if len(c.Changes)+len(whole.Changes) > 0 && !reflect.DeepEqual(c.Changes, whole.Changes) {
			t.Fatalf("the parts tell\n%+v\nand the whole\n%+v", c.Changes, whole.Changes)
		}
		if len(c.Causes) != len(whole.Causes) {
			t.Fatalf("%d causes of the parts, %d of the whole", len(c.Causes), len(whole.Causes))
		}
		for i := range c.Causes {
			if c.Causes[i].Thing != whole.Causes[i].Thing || c.Causes[i].Weight != whole.Causes[i].Weight {
				t.Fatalf("cause %d: %v and %v", i, c.Causes[i], whole.Causes[i])
			}
		}
	})
	if told < 10 {
		t.Errorf("the parts told something in %d tries only", told)
	}
}

// mentionsIn counts what the records of a plan refer to.
func mentionsIn(p *plan.Plan) plan.Mentions {
	m := plan.Mentions{}
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			m.Add(r)
		}
	}
	return m
}

func forgetAnchors(changes []plandiff.Change) {
	for i := range changes {
		if changes[i].Op == plandiff.Removed {
			changes[i].At = plan.Place{}
		}
	}
}

// part gives the records of p that the other plan does not have in the same form,
// and of the rest one in n+1.
func part(t *rapid.T, p, other *plan.Plan, n int) *plan.Plan {
	out := new(plan.Plan)
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			if o, ok := s.Find(other, r.Thing().Key); ok && sameRecord(s, o, r) && s.Kind != plan.KindPlan && (n == 0 || len(r.Thing().Key)%(n+1) > 0) {
				continue
			}
			if err := out.Add(r); err != nil {
				t.Fatal(err)
			}
		}
	}
	return out
}

func sameRecord(s *plan.Section, a, b plan.Record) bool {
	for i := range s.Fields {
		if !s.Fields[i].Same(a, b) {
			return false
		}
	}
	return true
}

// Without what changes reach, Compare tells the same.
func TestRecordsTellWhatTheWholeTells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		new := plantest.Edit(t, old)
		whole := compare(old, new)
		c := plandiff.CompareRecords(old, new)
		if !reflect.DeepEqual(c.Changes, whole.Changes) || !reflect.DeepEqual(c.Renames, whole.Renames) {
			t.Fatalf("the records tell\n%+v\nand the whole\n%+v", c.Changes, whole.Changes)
		}
		if len(c.Causes) != len(whole.Causes) {
			t.Fatalf("%d causes of the records, %d of the whole", len(c.Causes), len(whole.Causes))
		}
	})
}
