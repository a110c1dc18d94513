package page

import (
	"fmt"
	"sort"
)

// mark says of each cell what became of it, and reports whether anything did.
func (s *sides) mark(before, after []cell) (differs bool) {
	stood := make(map[string]int, len(before)) // by the name now
	for i, c := range before {
		stood[s.now(c.Name)] = i
	}
	stays := make(map[string]int, len(after))
	var order []int // where those that stay stood, in the order in which they stand
	for i, c := range after {
		if was, ok := stood[c.Name]; ok {
			stays[c.Name] = i
			order = append(order, was)
		}
	}
	kept := inOrder(order)
	for i := range after {
		c := &after[i]
		was, ok := stood[c.Name]
		switch fate := s.changed[c.Name]; {
		case !ok:
			c.State = "came"
		case !kept[was]:
			c.State, c.Why = "moved", fmt.Sprintf("from %d", was+1)
			before[was].State, before[was].Why = "moved", fmt.Sprintf("to %d", i+1)
		case fate.words() != "":
			c.State, c.Why = "changed", fate.words()
		}
		differs = differs || c.State != ""
	}
	for i := range before {
		if _, ok := stays[s.now(before[i].Name)]; !ok {
			before[i].State, differs = "went", true
		}
	}
	return differs
}

// inOrder gives a longest part of a list of different numbers that rises: what did not
// move, so that the fewest are said to have moved.
func inOrder(list []int) map[int]bool {
	var ends []int // the index of the least end of a rising part of each length
	before := make([]int, len(list))
	for i, v := range list {
		n := sort.Search(len(ends), func(k int) bool { return list[ends[k]] >= v })
		before[i] = -1
		if n > 0 {
			before[i] = ends[n-1]
		}
		if n == len(ends) {
			ends = append(ends, i)
		} else {
			ends[n] = i
		}
	}
	kept := make(map[int]bool, len(ends))
	if len(ends) == 0 {
		return kept
	}
	for i := ends[len(ends)-1]; i >= 0; i = before[i] {
		kept[list[i]] = true
	}
	return kept
}
