package plandiff

import (
	"slices"

	"passband.example/plandiff/plan"
)

// CompareParts compares two plans of which only some records are given: all those that
// differ, and where one is gone its neighbors, as plan.Parts gives them. refers tells what
// the whole old plan refers to, and is asked only where a record may have another key now.
// It tells the causes of the whole plans without what they reach, at the cost of those
// records alone. It gives nil where records that are not given refer to a key that is new
// or gone, which bears on what was renamed and what was left behind. Then CompareRecords
// tells.
func CompareParts(old, new *plan.Plan, refers func() plan.Mentions) *Comparison {
	c := &Comparison{Old: &plan.Expansion{Plan: old}, New: &plan.Expansion{Plan: new}, Renames: plan.Renames{}}
	m := newMatcher(c.Old, c.New, c.Renames)
	unsure := false
	m.dangling = func() map[string]bool {
		unsure = unsure || refersToNew(old, new, refers())
		return nil
	}
	for _, kind := range matchOrder {
		if s := plan.SectionOf(kind); len(s.All(old))+len(s.All(new)) > 0 {
			c.Changes = append(c.Changes, m.match(s)...)
		}
	}
	if unsure || len(c.Renames) > 0 && refersToRenamed(old, c.Renames, refers()) {
		return nil
	}
	c.Changes = append(c.Changes, m.edits()...)
	c.Capped = m.capped
	slices.SortStableFunc(c.Changes, orderOfChanges)
	c.Causes, _ = grouped(c.Changes)
	return c
}

// refersToNew reports whether the old plan refers to a key that came, as far as anybody
// can tell without the rest of the plan: it may be something else that has the key.
func refersToNew(old, new *plan.Plan, refers plan.Mentions) bool {
	for _, s := range plan.Sections() {
		if !s.HasOwnKeys() {
			continue
		}
		for _, r := range s.All(new) {
			key := r.Thing().Key
			if _, was := s.Find(old, key); !was && refers[key] > 0 {
				return true
			}
		}
	}
	return false
}

// refersToRenamed reports whether records that are not given refer to what has another key
// now, and so were left behind.
func refersToRenamed(given *plan.Plan, renames plan.Renames, refers plan.Mentions) bool {
	known := plan.Mentions{}
	for _, s := range plan.Sections() {
		for _, r := range s.All(given) {
			known.Add(r)
		}
	}
	for was := range renames {
		if refers[was.Key] > known[was.Key] {
			return true
		}
	}
	return false
}
