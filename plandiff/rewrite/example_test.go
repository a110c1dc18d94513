package rewrite_test

import (
	"fmt"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

// A label changes, and nothing else does.
func ExampleApply() {
	files := map[string][]byte{"plan.yaml": []byte("zones:\n  v: {label: 'Valley',   channels: [a, b]}   # all year\n")}
	p, err := rewrite.Load(files)
	if err != nil {
		fmt.Println(err)
		return
	}
	zone := plan.Thing{Kind: plan.KindZone, Key: "v"}
	texts, err := rewrite.Apply(files, p, []plandiff.Change{{
		Op: plandiff.Changed, Thing: zone, Was: zone,
		Edits: []plandiff.Edit{{Field: "label", Form: plan.Scalar, Old: []string{"Valley"}, New: []string{"Dale"}}},
	}})
	fmt.Print(string(texts["plan.yaml"]), err)
	// Output:
	// zones:
	//   v: {label: 'Dale',   channels: [a, b]}   # all year
	// <nil>
}
