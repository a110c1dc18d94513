package plandiff

import (
	"slices"

	"passband.example/plandiff/plan"
)

// CompareParts compares two plans of which only some records are given: all those
// that differ. It tells the causes of the whole plans without what they reach, at
// the cost of those records alone. It gives nil where that cannot be told from the
// parts, because a record is gone: it may have another key now, and where it was is
// told by its neighbors. Then CompareRecords tells.
func CompareParts(old, new *plan.Plan) *Comparison {
	c := &Comparison{Old: &plan.Expansion{Plan: old}, New: &plan.Expansion{Plan: new}, Renames: plan.Renames{}}
	m := newMatcher(c.Old, c.New, c.Renames)
	for _, kind := range matchOrder {
		s := plan.SectionOf(kind)
		gone, came := m.byKey(s)
		if len(gone) > 0 || (kind == plan.KindOperator || kind == plan.KindNeighbor) && len(came) > 0 { // rows that say the same are numbered in the whole
			return nil
		}
		c.Changes = append(c.Changes, m.whole(s, nil, came)...)
	}
	c.Changes = append(c.Changes, m.edits()...)
	slices.SortStableFunc(c.Changes, orderOfChanges)
	c.Causes, _ = grouped(c.Changes)
	return c
}
