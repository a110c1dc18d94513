package plantest_test

import (
	"bytes"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// A random plan is one that Load reads without a Problem and as it was drawn.
func TestPlanIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { readBack(t, plantest.Plan(t)) })
}

func TestEditIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { readBack(t, plantest.Edit(t, plantest.Plan(t))) })
}

func readBack(t *rapid.T, p *plan.Plan) {
	files, err := plan.Files(p)
	if err != nil {
		t.Fatal(err)
	}
	again := plantest.Load(t, files)
	for _, problem := range again.Problems {
		t.Errorf("%v\n%s", problem, files[problem.At.File])
	}
	if diff := plantest.Equal(p, again); diff != "" {
		t.Errorf("%s\n%s", diff, files["plan.yaml"])
	}
}

// The large plan has the channels that it promises and no problem, whatever the seed.
func TestText(t *testing.T) {
	for _, seed := range []uint64{0, 1, 2} {
		for _, channels := range []int{1_000, 4_000} {
			p := plantest.Load(t, plantest.Text(channels, seed))
			x := plan.Expand(p)
			if len(p.Problems)+len(x.Unresolved) > 0 || len(x.Channels) != channels {
				t.Errorf("%d channels, seed %d: %v %v, %d channels", channels, seed, p.Problems, x.Unresolved, len(x.Channels))
			}
			if again := plantest.Text(channels, seed); !bytes.Equal(again["plan.yaml"], plantest.Text(channels, seed)["plan.yaml"]) {
				t.Error("the same seed gives two texts")
			}
		}
	}
}
