package rewrite

import (
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
)

// setList gives a list its new items. Those that stay, and those that moved, keep
// their spelling and their comments.
func (t *target) setList(f *plan.Field) error {
	_, owner := below(t.spot.entry, f.Name)
	old, now := f.Texts(t.old, t.e.renames), f.Texts(t.now, nil)
	v := owner.Value
	if v.Locked {
		return t.lockedIn(owner)
	}
	if v.Kind == layout.Scalar {
		return t.setOne(owner, now)
	}
	if len(v.Entries) != len(old) {
		return t.lockedIn(owner)
	}
	if f.Form == plan.Set {
		now = inOldOrder(old, now)
	}
	if replaced, ok := otherTexts(old, now); ok {
		for _, i := range replaced {
			if err := t.setScalar(v, v.Entries[i], now[i]); err != nil {
				return err
			}
		}
		return nil
	}
	free := make(map[string][]*layout.Entry, len(old))
	for i, text := range old {
		free[text] = append(free[text], v.Entries[i])
	}
	var entries []*layout.Entry
	for _, text := range now {
		if rest := free[text]; len(rest) > 0 {
			entries, free[text] = append(entries, rest[0]), rest[1:]
			continue
		}
		entries = append(entries, v.NewEntry("", layout.NewScalar(text, v.Flow)))
	}
	for _, rest := range free {
		for _, e := range rest {
			if hasAnchor(e.Value) {
				return t.lockedIn(e)
			}
		}
	}
	v.Arrange(entries)
	return nil
}

// otherTexts tells whether a list has other texts at some places and is the same at all
// others, and gives those places: such an item has been corrected, and keeps its comment.
func otherTexts(old, now []string) (replaced []int, ok bool) {
	if len(old) != len(now) {
		return nil, false
	}
	for i := range old {
		if old[i] == now[i] {
			continue
		}
		if slices.Contains(now, old[i]) || slices.Contains(old, now[i]) {
			return nil, false // it moved
		}
		replaced = append(replaced, i)
	}
	return replaced, true
}

// setOne gives a list that is written as one value its new items.
func (t *target) setOne(owner *layout.Entry, now []string) error {
	flow := t.spot.in != nil && t.spot.in.Flow || t.spot.entry.Value.Flow
	if len(now) == 1 && !owner.Value.IsEmpty() {
		return t.setScalar(&layout.Node{Flow: flow}, owner, now[0])
	}
	n := layout.NewFlow(layout.Sequence, owner.Value.LineEnd())
	var entries []*layout.Entry
	for _, text := range now {
		entries = append(entries, n.NewEntry("", layout.NewScalar(text, true)))
	}
	n.Arrange(entries)
	opened(owner)
	owner.Value = n
	return nil
}

// inOldOrder lets what stays in a set keep its order, and puts what came behind it.
func inOldOrder(old, now []string) []string {
	count := make(map[string]int, len(now))
	for _, text := range now {
		count[text]++
	}
	var texts []string
	for _, text := range old {
		if count[text] > 0 {
			texts = append(texts, text)
			count[text]--
		}
	}
	for _, text := range now {
		if count[text] > 0 {
			texts = append(texts, text)
			count[text]--
		}
	}
	return texts
}
