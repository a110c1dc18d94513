package rules

import (
	"slices"
	"strings"

	"passband.example/review"
)

// All gives every rule, in the order of their IDs. Those whose faults loading
// finds have a page and no Run.
func All() []*review.Rule {
	all := []*review.Rule{
		DanglingReference,
		MemoryFull,
	}
	slices.SortFunc(all, func(a, b *review.Rule) int { return strings.Compare(a.ID, b.ID) })
	return all
}

// Find gives the rule with this ID.
func Find(id string) (*review.Rule, bool) {
	all := All()
	i := slices.IndexFunc(all, func(r *review.Rule) bool { return r.ID == id })
	if i < 0 {
		return nil, false
	}
	return all[i], true
}
