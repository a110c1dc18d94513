package plantest_test

import (
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
