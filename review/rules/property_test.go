package rules_test

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"gopkg.in/yaml.v3"
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
	"pgregory.net/rapid"
)

// TestAnyPlan runs all rules over random plans: each finding says what, where
// and of what, and the same plan gives the same findings.
func TestAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := filesOf(t, plantest.Plan(t))
		x := plan.Expand(plantest.Load(t, files))
		v := checkAll(t, x)
		for _, f := range v.Findings {
			if _, ok := rules.Find(f.Rule); !ok || f.What == "" || f.Fix == "" || f.At.File == "" || f.At.Line == 0 || len(f.About) == 0 {
				t.Errorf("a finding that lacks something: %+v", f)
			}
			for _, also := range f.Also {
				if also.At.IsZero() && !strings.HasPrefix(also.Text, "it was accepted") || also.Text == "" {
					t.Errorf("%s names a place that is none: %+v", f.Rule, also)
				}
			}
		}
		again := checkAll(t, plan.Expand(plantest.Load(t, files)))
		if diff := cmp.Diff(v.Findings, again.Findings); diff != "" {
			t.Errorf("the same plan gives other findings:\n%s", diff)
		}
	})
}

// TestOrderOfKeys turns every mapping of a plan around: the same faults are found.
func TestOrderOfKeys(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := filesOf(t, plantest.Plan(t))
		ids := idsOf(checkAll(t, plan.Expand(plantest.Load(t, files))))
		for name, data := range files {
			if strings.HasSuffix(name, ".yaml") {
				files[name] = turned(t, data)
			}
		}
		other := idsOf(checkAll(t, plan.Expand(plantest.Load(t, files))))
		if diff := cmp.Diff(ids, other); diff != "" {
			t.Errorf("another order of keys gives other faults:\n%s", diff)
		}
	})
}

// TestNoChange judges a plan against itself: nothing is new and nothing gone.
func TestNoChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := plan.Expand(plantest.Load(t, filesOf(t, plantest.Plan(t))))
		v, err := review.Judge(context.Background(), rules.All(), plandiff.Compare(x, x), nil, today)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range v.Findings {
			if f.Standing != review.Still {

				t.Errorf("%s is %s: %s", f.Rule, f.Standing, f.What)
			}
		}
		if len(v.Gone) > 0 {
			t.Errorf("gone: %+v", v.Gone)
		}
	})
}

func filesOf(t *rapid.T, p *plan.Plan) map[string][]byte {
	files, err := plan.Files(p)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func checkAll(t *rapid.T, x *plan.Expansion) *review.Verdict {
	v, err := review.Check(context.Background(), rules.All(), x, today)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func idsOf(v *review.Verdict) []string {
	var ids []string
	for _, f := range v.Findings {
		ids = append(ids, f.Rule+" "+f.ID())
	}
	slices.Sort(ids)
	return ids
}

// turned writes a text in YAML with the keys of each mapping from last to first.
func turned(t *rapid.T, data []byte) []byte {
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	var turn func(n *yaml.Node)
	turn = func(n *yaml.Node) {
		if n.Tag == "!!merge" {
			n.Tag, n.Style = "!!str", yaml.DoubleQuotedStyle // a label "<<", which yaml.v3 does not write as it reads it
		}
		if n.Kind == yaml.MappingNode {
			slices.Reverse(n.Content) // value, key, value, key
			for i := 0; i+1 < len(n.Content); i += 2 {
				n.Content[i], n.Content[i+1] = n.Content[i+1], n.Content[i]
			}
		}
		for _, inner := range n.Content {
			turn(inner)
		}
	}
	turn(&doc)
	var text bytes.Buffer
	if err := yaml.NewEncoder(&text).Encode(&doc); err != nil {
		t.Fatal(err)
	}
	return text.Bytes()
}
