package plandiff

import (
	"slices"

	"passband.example/plandiff/plan"
)

// CompareParts compares two plans of which only some files are given: all those
// that differ. It tells the causes of the whole plans without what they reach, at
// the cost of those files alone. It gives nil where that cannot be told from the
// parts, because a record may have another key: then Compare tells.
func CompareParts(old, new *plan.Plan) *Comparison {
	c := &Comparison{Old: &plan.Expansion{Plan: old}, New: &plan.Expansion{Plan: new}, Renames: plan.Renames{}}
	m := newMatcher(c.Old, c.New, c.Renames)
	for _, kind := range matchOrder {
		s := plan.SectionOf(kind)
		gone, came := m.byKey(s)
		if len(gone) > 0 && len(came) > 0 && renamable(kind) || kind == plan.KindOperator && len(gone)+len(came) > 0 {
			return nil
		}
		c.Changes = append(c.Changes, m.whole(s, gone, came)...)
	}
	c.Changes = append(c.Changes, m.edits()...)
	slices.SortStableFunc(c.Changes, orderOfChanges)
	c.Causes, _ = grouped(c.Changes)
	return c
}
