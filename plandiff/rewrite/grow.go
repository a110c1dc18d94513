package rewrite

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// grow puts in the key at a path, with all that the record will hold there, where
// the model has it and in the style of what stands around it.
func (t *target) grow(path string) error {
	block, key, nested := cutLast(path)
	owner := t.spot.entry
	if nested {
		if owner = t.has(block); owner == nil {
			return t.grow(block)
		}
	}
	if owner.Value.Locked {
		return t.lockedIn(owner)
	}
	opened(owner)
	in := owner.Value
	if in.Kind != layout.Mapping {
		return t.lockedIn(owner)
	}
	w := writer{s: t.s, r: t.now, style: t.style()}
	e := w.entry(in, path, key)
	if e == nil {
		return nil
	}
	in.Insert(t.place(in, block, key), e)
	t.grown = append(t.grown, path)
	return nil
}

func (t *target) isGrown(path string) bool {
	return slices.ContainsFunc(t.grown, func(g string) bool { return path == g || strings.HasPrefix(path, g+".") })
}

// opened makes a mapping of a value that says nothing yet.
func opened(owner *layout.Entry) {
	if owner.Value.Kind == layout.Mapping {
		return
	}
	if text := owner.Value.Text; owner.Value.Kind == layout.Scalar && (text == "" || text == "~" || text == "null") {
		owner.Value = layout.NewFlow(layout.Mapping, owner.Value.LineEnd())
		if !strings.HasSuffix(owner.Sep, " ") {
			owner.Sep += " "
		}
	}
}

// place gives the index at which a key belongs: behind the last of those that the
// model has before it.
func (t *target) place(in *layout.Node, block, key string) int {
	order := keysOf(t.s, block)
	rank := func(key string) int {
		for i, k := range order {
			if k == key {
				return i
			}
		}
		return len(order) // a section of the root
	}
	i := 0
	for j, e := range in.Entries {
		if rank(e.Name()) < rank(key) {
			i = j + 1
		}
	}
	return i
}

// keysOf gives the keys that stand under a path, in the order of the model.
func keysOf(s *plan.Section, block string) []string {
	var keys []string
	for i := range s.Fields {
		rest := s.Fields[i].Name
		if block != "" {
			var ok bool
			if rest, ok = strings.CutPrefix(rest, block+"."); !ok {
				continue
			}
		}
		key, _, _ := strings.Cut(rest, ".")
		if len(keys) == 0 || keys[len(keys)-1] != key {
			keys = append(keys, key)
		}
	}
	return keys
}

// style tells how the records around the target are written.
func (t *target) style() style {
	return t.tree().styleOf(t.s, t.spot.in)
}

func (t *target) tree() *tree {
	if in := t.e.trees[t.old.Place().File]; in != nil {
		return in
	}
	return t.e.trees[plan.RootFile]
}
