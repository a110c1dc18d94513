package rewrite

import (
	"fmt"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// remove takes away the records that went, and sections that have none left.
func (e *editor) remove() error {
	for _, c := range e.changes {
		if c.Op != plandiff.Removed {
			continue
		}
		r, ok := e.old.Find(c.Was)
		if !ok {
			return missing(c)
		}
		if file, _ := plan.SectionOf(c.Was.Kind).Table(); file != "" {
			e.tables[r.Place().File].remove(r.Place().Line)
			continue
		}
		s, err := e.record(r)
		if err != nil {
			return err
		}
		if hasAnchor(s.entry.Value) {
			return lockedAt(r.Place())
		}
		s.in.Remove(s.entry)
	}
	for _, t := range e.trees {
		t.prune()
	}
	return nil
}

func missing(c plandiff.Change) error {
	return fmt.Errorf("cannot change %s: there is none", c.Was)
}

// hasAnchor reports whether another place may repeat n or a part of it.
func hasAnchor(n *layout.Node) bool {
	if n == nil {
		return false
	}
	if n.Locked && n.Kind != layout.Alias {
		return true
	}
	for _, e := range n.Entries {
		if hasAnchor(e.Value) || e.Key != nil && e.Key.Locked {
			return true
		}
	}
	return false
}

// prune takes away block sections that lost their last record; one between braces
// stays as it is, {}.
func (t *tree) prune() {
	for _, name := range []string{"review", ""} {
		in := t.doc.Root
		if name != "" {
			outer := in.Find(name)
			if outer == nil {
				continue
			}
			in = outer.Value
		}
		if in == nil || in.Kind != layout.Mapping {
			continue
		}
		for _, e := range append([]*layout.Entry(nil), in.Entries...) {
			if isSpent(e.Value) {
				in.Remove(e)
			}
		}
	}
}

// isSpent reports whether a block collection has no entry left.
func isSpent(n *layout.Node) bool {
	return (n.Kind == layout.Mapping || n.Kind == layout.Sequence) && !n.Flow && len(n.Entries) == 0
}

// below gives the entry at a path of keys, and what holds it; nil where a part of
// the path is missing.
func below(owner *layout.Entry, path string) (in *layout.Node, found *layout.Entry) {
	found = owner
	for part := range strings.SplitSeq(path, ".") {
		in = found.Value
		if found = in.Find(part); found == nil {
			return nil, nil
		}
	}
	return in, found
}
