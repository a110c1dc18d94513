package chronicle

import (
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// wants reports whether a commit was made by whoever was asked for.
func (l *logger) wants(e *Entry) bool {
	by := strings.ToLower(l.query.By)
	return strings.Contains(strings.ToLower(e.Commit.Author), by) || strings.Contains(strings.ToLower(e.Commit.AuthorEmail), by)
}

// heavy keeps the changes that weigh as much as was asked for.
func (l *logger) heavy(causes []plandiff.Cause) []plandiff.Cause {
	if l.query.Least == 0 {
		return causes
	}
	return keep(causes, func(c plandiff.Change) (plandiff.Change, bool) { return c, c.Weight <= l.query.Least })
}

// keep gives the causes with those changes that pass, and leaves out those that
// have none left.
func keep(causes []plandiff.Cause, pass func(plandiff.Change) (plandiff.Change, bool)) []plandiff.Cause {
	var kept []plandiff.Cause
	for _, cause := range causes {
		var changes []plandiff.Change
		for _, c := range cause.Changes {
			if c, ok := pass(c); ok {
				changes = append(changes, c)
			}
		}
		if len(changes) == 0 {
			continue
		}
		cause.Changes, cause.Weight = changes, plan.Policy
		for _, c := range changes {
			cause.Weight = min(cause.Weight, c.Weight)
		}
		kept = append(kept, cause)
	}
	return kept
}

// about keeps the causes that touch one of the things that are followed.
func about(causes []plandiff.Cause, trails []trail) []plandiff.Cause {
	if len(trails) == 0 {
		return causes
	}
	return slices.DeleteFunc(slices.Clone(causes), func(c plandiff.Cause) bool {
		return !slices.ContainsFunc(trails, func(t trail) bool { return t.feels(&c) })
	})
}

// feels reports whether a cause touches what is followed.
func (t trail) feels(c *plandiff.Cause) bool {
	switch {
	case t.waiting:
		return slices.ContainsFunc(c.Changes, func(c plandiff.Change) bool { return t.lost(&c) })
	case t.channel:
		return slices.ContainsFunc(c.Reach.Channels, func(e plandiff.Effect) bool { return e.Channel == t.thing.Key })
	}
	return c.Thing == t.thing
}
