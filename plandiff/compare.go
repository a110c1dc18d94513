package plandiff

import (
	"cmp"
	"slices"

	"passband.example/plandiff/plan"
)

// A Comparison is what differs between two plans.
type Comparison struct {
	Old, New *plan.Expansion
	Renames  plan.Renames // old keys that have a new one
	Changes  []Change     // by kind and key
	Causes   []Cause      // the changes by the record they were made to, with what they reach
	Capped   []plan.Kind  // kinds with so many unmatched records that some renames may show as removed and added
}

// Empty reports whether the two plans mean the same.
func (c *Comparison) Empty() bool { return len(c.Changes) == 0 }

// Compare tells what changed from one plan to another. Both must have loaded
// without problems: what could not be read cannot be compared.
//
// Records are matched by key; then, among those that are left, as the new plan states;
// by what they are on the air; then by likeness, so that the total of differences is least. Two
// spellings of one signal are no change, nor is another order of keys, another
// file, or a reference that follows a renamed key.
func Compare(old, new *plan.Expansion) *Comparison {
	c := compareRecords(old, new)
	c.Causes = causes(c)
	return c
}

// CompareRecords tells what Compare tells of two plans, but not what it reaches, for
// which channels need not be worked out.
func CompareRecords(old, new *plan.Plan) *Comparison {
	c := compareRecords(&plan.Expansion{Plan: old}, &plan.Expansion{Plan: new})
	c.Causes, _ = grouped(c.Changes)
	return c
}

func compareRecords(old, new *plan.Expansion) *Comparison {
	c := &Comparison{Old: old, New: new, Renames: plan.Renames{}}
	m := newMatcher(old, new, c.Renames)
	for _, kind := range matchOrder {
		pairs := m.match(plan.SectionOf(kind))
		c.Changes = append(c.Changes, pairs...)
	}
	// Only now are all new keys known, and can references be compared.
	c.Changes = append(c.Changes, m.edits()...)
	c.Capped = m.capped
	slices.SortStableFunc(c.Changes, orderOfChanges)
	return c
}

// matchOrder puts records that others refer to before those that do.
var matchOrder = []plan.Kind{
	plan.KindPlan, plan.KindGroup, plan.KindReceiveList, plan.KindRepeater, plan.KindChannel, plan.KindZone,
	plan.KindScanList, plan.KindMessage, plan.KindShortcut, plan.KindOperator, plan.KindRadio,
	plan.KindSeverity, plan.KindAcceptance, plan.KindLicenseRow, plan.KindSeparationRow, plan.KindNeighbor, plan.KindCoordination,
}

// orderOfChanges sorts by kind, key, operation and field, so that neither file
// order nor the way of matching shows.
func orderOfChanges(a, b Change) int {
	return cmp.Or(
		cmp.Compare(a.Thing.Kind, b.Thing.Kind),
		cmp.Compare(a.Thing.Key, b.Thing.Key),
		cmp.Compare(a.Op, b.Op),
	)
}
