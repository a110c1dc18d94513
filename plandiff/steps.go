package plandiff

import "slices"

// A Step is one thing that happened to an item of a list.
type Step struct {
	Op   StepOp
	Text string // the item, in the keys of the new plan
	From int    // where it stood, from 1; 0 for one that came
	To   int    // where it stands, from 1; 0 for one that went
}

// StepOp is what happened to an item.
type StepOp uint8

// What may happen to an item.
const (
	Came StepOp = iota + 1
	Went
	Moved
	Left // it is written as before, and what it named has another key now
)

var stepNames = [...]string{Came: "added", Went: "removed", Moved: "moved", Left: "left behind"}

// String gives the word for the step.
func (o StepOp) String() string {
	if int(o) < len(stepNames) && stepNames[o] != "" {
		return stepNames[o]
	}
	return "kept"
}

// MarshalText gives the word for the step, so that JSON shows it.
func (o StepOp) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// listSteps gives the least number of steps from one list to the other: what
// went, what came, and what moved. The items that keep their place relative to
// each other are a longest increasing run, so as few as can be have moved.
func listSteps(old, new []string) []Step {
	to := positions(old, new)
	var steps []Step
	var kept []int // places in new of the old items that are still there, in old order
	var from []int
	for i, p := range to {
		if p < 0 {
			steps = append(steps, Step{Went, old[i], i + 1, 0})
			continue
		}
		kept, from = append(kept, p), append(from, i)
	}
	still := longestRun(kept)
	came := make([]bool, len(new))
	for i := range came {
		came[i] = true
	}
	for i, p := range kept {
		came[p] = false
		if !still[i] {
			steps = append(steps, Step{Moved, new[p], from[i] + 1, p + 1})
		}
	}
	for i, text := range new {
		if came[i] {
			steps = append(steps, Step{Came, text, 0, i + 1})
		}
	}
	return steps
}

// leftBehind puts together what looks like an item that went and another that
// came, and is one that nobody touched: a reference to a key that was renamed.
// Was holds the old items as they were written.
func leftBehind(steps []Step, was []string) []Step {
	came := make(map[string]int) // by text, where it stands among the steps
	for i, s := range steps {
		if s.Op == Came {
			came[s.Text] = i
		}
	}
	drop := make(map[int]bool)
	for i, s := range steps {
		if s.Op != Went || was[s.From-1] == s.Text {
			continue
		}
		if j, ok := came[was[s.From-1]]; ok && !drop[j] {
			steps[i] = Step{Left, steps[j].Text, s.From, steps[j].To}
			drop[j] = true
		}
	}
	var kept []Step
	for i, s := range steps {
		if !drop[i] {
			kept = append(kept, s)
		}
	}
	return kept
}

// positions gives for each old item where it stands in the new list, or -1. The
// first of several equal items is taken for the first, and so on.
func positions(old, new []string) []int {
	where := make(map[string][]int, len(new))
	for i, text := range new {
		where[text] = append(where[text], i)
	}
	to := make([]int, len(old))
	for i, text := range old {
		to[i] = -1
		if rest := where[text]; len(rest) > 0 {
			to[i], where[text] = rest[0], rest[1:]
		}
	}
	return to
}

// longestRun marks the numbers of a longest increasing subsequence (patience
// sorting, O(n log n)).
func longestRun(numbers []int) []bool {
	var tops []int // index of the last number of the best run of each length
	before := make([]int, len(numbers))
	for i, n := range numbers {
		length, _ := slices.BinarySearchFunc(tops, n, func(top, n int) int { return numbers[top] - n })
		before[i] = -1
		if length > 0 {
			before[i] = tops[length-1]
		}
		if length == len(tops) {
			tops = append(tops, i)
		} else {
			tops[length] = i
		}
	}
	marks := make([]bool, len(numbers))
	if len(tops) == 0 {
		return marks
	}
	for i := tops[len(tops)-1]; i >= 0; i = before[i] {
		marks[i] = true
	}
	return marks
}

// setSteps gives what came and what went where order means nothing.
func setSteps(old, new []string) []Step {
	old, new = slices.Sorted(slices.Values(old)), slices.Sorted(slices.Values(new))
	steps := listSteps(old, new)
	return slices.DeleteFunc(steps, func(s Step) bool { return s.Op == Moved })
}
