package review_test

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
	"pgregory.net/rapid"
)

// everything finds fault with every field of every record, and with every channel,
// so that whatever can change of an identity does.
var everything = []*review.Rule{
	{ID: "field", Severity: review.Warn, Edition: 2026, Run: func(p *review.Pass) {
		for _, s := range plan.Sections() {
			for _, r := range s.All(p.Plan) {
				for i := range s.Fields {
					f := &s.Fields[i]
					if items := f.Items(r); len(items) > 0 && f.Ref == plan.NoRef { // keys belong into About
						p.Report(review.Finding{At: items[0].At, About: []plan.Thing{r.Thing()}, Values: append(f.Texts(r, nil), f.Name), What: f.Name})
					}
				}
			}
		}
	}},
	{ID: "channel", Severity: review.Block, Edition: 2026, Run: func(p *review.Pass) {
		for _, c := range p.Expansion.Channels {
			p.Report(review.Finding{At: c.At, About: []plan.Thing{c.Thing()}, Values: []string{c.Receive.String()}, What: c.Name})
		}
	}},
}

func judged(t *rapid.T, old, new *plan.Plan) *review.Verdict {
	v, err := review.Judge(context.Background(), everything, plandiff.Compare(plan.Expand(old), plan.Expand(new)), nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func found(t *rapid.T, p *plan.Plan) []review.Finding {
	v, err := review.Check(context.Background(), everything, plan.Expand(p), today)
	if err != nil {
		t.Fatal(err)
	}
	return v.Findings
}

// TestNothingChanged judges a plan against itself.
func TestNothingChanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t)
		v := judged(t, p, p)
		if n := len(found(t, p)); len(v.Findings) != n {
			t.Errorf("%d findings, and a check has %d", len(v.Findings), n)
		}
		allStill(t, v)
	})
}

func allStill(t *rapid.T, v *review.Verdict) {
	for _, f := range slices.Concat(v.Findings, v.Gone) {
		if f.Standing != review.Still {
			t.Errorf("it is %s: %s about %v: %q", f.Standing, f.Rule, f.About, f.Values)
		}
	}
}

// TestCountedOff judges random edits: each finding of the old plan is still there or
// gone, and each of the new one new or still there, one for one.
func TestCountedOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		now := plantest.Edit(t, old)
		v := judged(t, old, now)
		still := 0
		for _, f := range v.Findings {
			if f.Standing == review.Still {
				still++
			}
		}
		ren := plandiff.Compare(plan.Expand(old), plan.Expand(now)).Renames
		if was, is := len(found(t, old)), len(found(t, now.Under(old, ren))); still+len(v.Gone) != was || len(v.Findings) != is {
			t.Errorf("%d before and %d now, but %d still there, %d gone and %d in all", was, is, still, len(v.Gone), len(v.Findings))
		}
	})
}

// TestRenamed gives one record of a random plan another key, and wants every finding
// to be known again.
func TestRenamed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := plantest.Plan(t)
		var things []plan.Thing
		for _, s := range plan.Sections() {
			for _, r := range s.All(old) {
				if s.HasOwnKeys() && s.Kind != plan.KindShortcut && s.Kind != plan.KindSeverity {
					things = append(things, r.Thing())
				}
			}
		}
		if len(things) == 0 {
			t.Skip("nothing has a key")
		}
		was := rapid.SampledFrom(things).Draw(t, "record")
		is := plan.Thing{Kind: was.Kind, Key: "renamed"}
		now, err := plandiff.Apply(old, []plandiff.Change{{Op: plandiff.Renamed, Was: was, Thing: is}})
		if err != nil {
			t.Fatal(err)
		}
		c := plandiff.Compare(plan.Expand(old), plan.Expand(now))
		if c.Renames[was] != is.Key {
			t.Skip("a record that is like nothing or refers to itself is not recognised")
		}
		v, err := review.Judge(context.Background(), everything, c, nil, today)
		if err != nil {
			t.Fatal(err)
		}
		allStill(t, v)
	})
}

// TestIdentityHasNoPlace loads one plan from two layouts: other lines, other files,
// other columns. The findings must have the same IDs.
func TestIdentityHasNoPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, err := plan.Files(plantest.Plan(t))
		if err != nil {
			t.Fatal(err)
		}
		other := make(map[string][]byte)
		for name, data := range files {
			if before, yaml := strings.CutSuffix(name, ".yaml"); yaml {
				data = append([]byte("# moved\n\n"), data...)
				if before != "plan" {
					name = "folder/" + before + "-moved.yaml"
				}
			}
			other[name] = data
		}
		one, two := ids(found(t, plantest.Load(t, files))), ids(found(t, plantest.Load(t, other)))
		if !slices.Equal(one, two) {
			t.Errorf("in one layout\n%s\nin the other\n%s", strings.Join(one, "\n"), strings.Join(two, "\n"))
		}
	})
}

func ids(fs []review.Finding) []string {
	var all []string
	for _, f := range fs {
		all = append(all, fmt.Sprintf("%s %s %v", f.Rule, f.ID(), f.About))
	}
	slices.Sort(all)
	return all
}
