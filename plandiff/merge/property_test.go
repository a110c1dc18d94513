package merge_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/rewrite/styletest"
	"pgregory.net/rapid"
)

// drawn gives a plan in some style, and what two people made of it.
func drawn(t *rapid.T) (base, ours, theirs merge.Files) {
	p := plantest.Plan(t)
	base = styletest.Files(t, p)
	return base, edited(t, base, plantest.Edit(t, p)), edited(t, base, plantest.Edit(t, p))
}

// edited carries an edit into files, and now and then writes a comment.
func edited(t *rapid.T, files merge.Files, now *plan.Plan) merge.Files {
	old := plantest.Load(t, files)
	texts, err := rewrite.Apply(files, old, plandiff.Compare(plan.Expand(old), plan.Expand(now)).Changes)
	if err != nil {
		t.Fatal(err)
	}
	all := maps.Clone(files)
	maps.Copy(all, texts)
	return all
}

func merged(t *rapid.T, base, ours, theirs merge.Files) *merge.Result {
	r, err := merge.Plans(base, ours, theirs, merge.Labels{})
	if err != nil && strings.Contains(err.Error(), "leads to no frequency") {
		t.Skip("the output of one side and the split of the other are no pair: refused in words, and left to the line merge")
	}
	if err != nil {
		t.Fatalf("%v\nbase\n%s\nours\n%s\ntheirs\n%s", err, show(base), show(ours), show(theirs))
	}
	return r
}

func show(files merge.Files) string {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(files)) {
		b.WriteString("-- " + name + " --\n" + string(files[name]))
	}
	return b.String()
}

// Where one side did nothing, or both the same, the bytes are the other's.
func TestOneSideAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, a, _ := drawn(t)
		for _, test := range []struct {
			name               string
			base, ours, theirs merge.Files
		}{{"(b, a, b)", base, a, base}, {"(b, b, a)", base, base, a}, {"(b, a, a)", base, a, a}} {
			r := merged(t, test.base, test.ours, test.theirs)
			if got, want := show(r.Files), show(a); got != want || len(r.Conflicts) > 0 {
				t.Fatalf("%s: %v, got\n%s\nwant\n%s", test.name, r.Conflicts, got, want)
			}
		}
	})
}

// What merges says all that either side changed, and nothing else.
func TestNoEditIsLostOrInvented(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := drawn(t)
		r := merged(t, base, ours, theirs)
		if len(r.Conflicts) > 0 {
			if len(r.Marked) == 0 {
				t.Fatalf("conflicts without marks: %v\nbase\n%s\nours\n%s\ntheirs\n%s", r.Conflicts, show(base), show(ours), show(theirs))
			}
			return
		}
		b, o, th, m := plantest.Load(t, base), plantest.Load(t, ours), plantest.Load(t, theirs), plantest.Load(t, r.Files)
		if len(m.Problems) > 0 {
			t.Fatalf("%v\n%s", m.Problems[0], show(r.Files))
		}
		for _, v := range []*plan.Plan{o, th} {
			if len(plandiff.Compare(plan.Expand(b), plan.Expand(v)).Renames) > 0 {
				return // keys are judged below
			}
		}
		for _, s := range plan.Sections() {
			if s.HasOwnKeys() || s.Kind == plan.KindPlan {
				sectionMerged(t, s, b, o, th, m)
			}
		}
	})
}

// sectionMerged says again, in the plainest way, what a merge must give.
func sectionMerged(t *rapid.T, s *plan.Section, b, o, th, m *plan.Plan) {
	keys := map[string]bool{}
	for _, p := range []*plan.Plan{b, o, th, m} {
		for _, r := range s.All(p) {
			keys[r.Thing().Key] = true
		}
	}
	for key := range keys {
		there := func(p *plan.Plan) bool { _, ok := s.Find(p, key); return ok }
		want := there(o) && there(th)
		if !there(b) {
			want = there(o) || there(th)
		}
		if there(m) != want {
			t.Fatalf("%s %s: in the base %v, ours %v, theirs %v, merged %v", s.Kind, key, there(b), there(o), there(th), there(m))
		}
		for i := range s.Fields {
			if f := &s.Fields[i]; want {
				fieldMerged(t, s, f, key, b, o, th, m)
			}
		}
	}
}

// fieldMerged judges a field of a record that is in the merged plan. One that only
// one side has is new there, and must be as that side has it.
func fieldMerged(t *rapid.T, s *plan.Section, f *plan.Field, key string, b, o, th, m *plan.Plan) {
	say := func(p *plan.Plan) string {
		r, ok := s.Find(p, key)
		if !ok {
			return ""
		}
		texts := slices.Clone(f.Texts(r, nil))
		if f.Form == plan.Set || f.Form == plan.List {
			slices.Sort(texts)
		}
		return strings.Join(texts, "|")
	}
	was, mine, other, got := say(b), say(o), say(th), say(m)
	switch {
	case mine == other && got == mine, was == mine && got == other, was == other && got == mine:
	case f.Form == plan.List || f.Form == plan.Set:
		listMerged(t, key+" "+f.Name, was, mine, other, got)
	default:
		t.Fatalf("%s %s.%s: base %q, ours %q, theirs %q, merged %q", s.Kind, key, f.Name, was, mine, other, got)
	}
}

// listMerged counts: an item is there as often as the side that changed that has it.
func listMerged(t *rapid.T, what, was, mine, other, got string) {
	count := func(list string) map[string]int {
		n := map[string]int{}
		for _, item := range strings.Split(list, "|") {
			n[item]++
		}
		return n
	}
	b, o, th, m := count(was), count(mine), count(other), count(got)
	for _, list := range []string{was, mine, other, got} {
		for _, item := range strings.Split(list, "|") {
			if item == "" {
				continue
			}
			want := o[item]
			if o[item] == b[item] {
				want = th[item]
			}
			if o[item] != b[item] && th[item] != b[item] && o[item] != th[item] {
				continue // both changed how often it stands there
			}
			if m[item] != want {
				t.Fatalf("%s: %q stands there %d times, want %d: base %s, ours %s, theirs %s, merged %s", what, item, m[item], want, was, mine, other, got)
			}
		}
	}
}

// A merge that does not look for what leads nowhere, since neither side can have made
// it so, misses nothing that Together finds in the three plans.
func TestNothingGoesAstrayUntold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := drawn(t)
		b, o, th := plantest.Load(t, base), plantest.Load(t, ours), plantest.Load(t, theirs)
		if len(plandiff.CompareRecords(b, o).Renames)+len(plandiff.CompareRecords(b, th).Renames) > 0 {
			t.Skip("Together knows the sides by their own keys")
		}
		r := merged(t, base, ours, theirs)
		if len(r.Conflicts) > 0 {
			t.Skip("the text is no plan")
		}
		want, err := merge.Together(ours, theirs, r.Files)
		if err != nil {
			t.Fatal(err)
		}
		for _, warning := range want {
			if !slices.Contains(r.After, warning) {
				t.Fatalf("%q is not told:\nbase\n%s\nours\n%s\ntheirs\n%s", warning, show(base), show(ours), show(theirs))
			}
		}
	})
}

// Who is called ours makes no difference but for the order.
func TestSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := drawn(t)
		one, two := merged(t, base, ours, theirs), merged(t, base, theirs, ours)
		if (len(one.Conflicts) == 0) != (len(two.Conflicts) == 0) {
			t.Fatalf("conflicts one way alone: %v and %v\nbase\n%s\nours\n%s\ntheirs\n%s\none\n%s\ntwo\n%s", one.Conflicts, two.Conflicts, show(base), show(ours), show(theirs), show(one.Files), show(two.Files))
		}
		if len(one.Conflicts) > 0 {
			return
		}
		a, b := plantest.Load(t, one.Files), plantest.Load(t, two.Files)
		for _, c := range plandiff.Compare(plan.Expand(a), plan.Expand(b)).Changes {
			for _, e := range c.Edits {
				for _, step := range e.Steps {
					if step.Op != plandiff.Moved {
						t.Fatalf("%s %s: %v\n%s\n%s", c.Thing, e.Field, step, show(one.Files), show(two.Files))
					}
				}
				if len(e.Steps) == 0 {
					t.Fatalf("%s %s: %q and %q", c.Thing, e.Field, e.Old, e.New)
				}
			}
		}
	})
}
