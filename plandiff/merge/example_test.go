package merge_test

import (
	"fmt"

	"passband.example/plandiff/merge"
)

// Two volunteers edit one repeater in one week.
func ExamplePlans() {
	base := merge.Files{"plan.yaml": []byte("repeaters:\n  ridge: {label: Ridge, output: 444.325, split: +5} # the hill\n")}
	ours := merge.Files{"plan.yaml": []byte("repeaters:\n  ridge: {label: High, output: 444.325, split: +5} # the hill\n")}
	theirs := merge.Files{"plan.yaml": []byte("repeaters:\n  ridge: {label: Ridge, output: 444.350, split: +5} # the hill\n")}
	r, err := merge.Plans(base, ours, theirs, merge.Labels{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s%d to decide\n", r.Files["plan.yaml"], len(r.Conflicts))
	// Output:
	// repeaters:
	//   ridge: {label: High, output: 444.350, split: +5} # the hill
	// 0 to decide
}

// One field with two new values is left to a person.
func ExampleFile() {
	r, err := merge.File("zones.yaml", []byte("zones: {v: {label: A}}\n"), []byte("zones: {v: {label: B}}\n"), []byte("zones: {v: {label: C}}\n"), merge.Labels{Ours: "mine", Theirs: "yours"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(string(r.Files["zones.yaml"]))
	fmt.Println(r.Conflicts[0])
	// Output:
	// <<<<<<< mine
	// zones: {v: {label: B}}
	// =======
	// zones: {v: {label: C}}
	// >>>>>>> yours
	// zone v, label: ours says B (zones.yaml:1:20); theirs says C (zones.yaml:1:20)
}
