package plan_test

import (
	"fmt"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// Whatever files come and go, an assembly knows whether its plan has problems.
func TestAssemblyKnowsProblems(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a plan.Assembly
		for range rapid.IntRange(1, 12).Draw(t, "steps") {
			name := rapid.SampledFrom([]string{plan.RootFile, "a.yaml", "b.yaml", "operators.csv", "c/operators.csv"}).Draw(t, "name")
			if rapid.IntRange(0, 3).Draw(t, "gone") == 0 {
				a.Remove(name)
			} else {
				a.Put(plan.ParseFile(name, drawFile(t, name)))
			}
			p := a.Compose(nil)
			if sound := len(p.Problems) == 0; sound != a.Sound() {
				t.Fatalf("sound: %v, and the problems are %v", a.Sound(), p.Problems)
			}
			if a.Sound() {
				findsAll(t, &a, p)
			}
		}
	})
}

// drawFile draws the text of a file of this name, which may have a fault.
func drawFile(t *rapid.T, name string) []byte {
	files := written(t, plantest.Plan(t))
	switch name {
	case plan.RootFile:
		return spoiled(t, files[name])
	case "operators.csv", "c/operators.csv":
		return spoiled(t, append([]byte("id,callsign,name\n"), "9990001,N0QRV,\n9990001,N0QRV,\n"...))
	}
	key := rapid.SampledFrom([]string{"ridge", "knob", "mill"}).Draw(t, "key")
	split := rapid.SampledFrom([]string{"+5", "-600"}).Draw(t, "split")
	return spoiled(t, []byte(fmt.Sprintf("repeaters: {%s: {output: 444.325, split: %s}}\ngroups: {%s: {id: 1}}\n", key, split, key)))
}

// findsAll: an assembly finds the records of its plan, and no others.
func findsAll(t *rapid.T, a *plan.Assembly, p *plan.Plan) {
	for _, s := range plan.Sections() {
		for _, r := range s.All(p) {
			if got, ok := a.Find(r.Thing()); s.HasOwnKeys() && (!ok || got != r) {
				t.Fatalf("%s is found as %v", r.Thing(), got)
			}
		}
	}
	for _, key := range []string{"ridge", "knob", "mill"} {
		thing := plan.Thing{Kind: plan.KindRepeater, Key: key}
		_, want := p.Find(thing)
		if r, ok := a.Find(thing); ok != want {
			t.Fatalf("%s is found as %v", thing, r)
		}
	}
}
