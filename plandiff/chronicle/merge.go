package chronicle

import (
	"slices"

	"passband.example/plandiff"
)

// inBoth keeps of the changes from one parent of a merge those that are also
// changes from another one: what equals a parent was said there, and the rest
// is what the merge changed itself.
func inBoth(causes, others []plandiff.Cause) []plandiff.Cause {
	return keep(causes, func(c plandiff.Change) (plandiff.Change, bool) {
		other := changesOf(others, c)
		if len(other) == 0 {
			return c, false
		}
		if c.Op != plandiff.Changed {
			return c, slices.ContainsFunc(other, func(o plandiff.Change) bool { return o.Op == c.Op })
		}
		c.Edits = slices.DeleteFunc(slices.Clone(c.Edits), func(e plandiff.Edit) bool {
			return !slices.ContainsFunc(other, func(o plandiff.Change) bool { return o.Field(e.Field) != nil })
		})
		return c, len(c.Edits) > 0
	})
}

func changesOf(causes []plandiff.Cause, c plandiff.Change) []plandiff.Change {
	for i := range causes {
		if causes[i].Thing == c.Thing {
			return causes[i].Changes
		}
	}
	return nil
}
