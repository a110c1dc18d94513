package plan

import (
	"slices"
	"strings"
)

// A Table holds the records of one kind, in the order of the files.
type Table[R Record] struct {
	rows  []R
	byKey map[string]R
}

// All gives the records in the order in which they were read. The caller must
// not change the slice.
func (t *Table[R]) All() []R { return t.rows }

// Len counts the records.
func (t *Table[R]) Len() int { return len(t.rows) }

// Find gives the record with this key.
func (t *Table[R]) Find(key string) (R, bool) {
	r, ok := t.byKey[key]
	return r, ok
}

// Sorted gives the records in the order of their keys, which no edit of layout
// changes.
func (t *Table[R]) Sorted() []R {
	type keyed struct {
		key string
		row R
	}
	sorted := make([]keyed, len(t.rows)) // a record is large: look at each once
	for i, r := range t.rows {
		sorted[i] = keyed{r.Thing().Key, r}
	}
	slices.SortFunc(sorted, func(a, b keyed) int { return strings.Compare(a.key, b.key) })
	rows := make([]R, len(sorted))
	for i, k := range sorted {
		rows[i] = k.row
	}
	return rows
}

// expect makes room for n records, where there are none yet.
func (t *Table[R]) expect(n int) {
	if t.byKey == nil {
		t.rows, t.byKey = make([]R, 0, n), make(map[string]R, n)
	}
}

// add puts a record in, unless its key is taken; then it gives the one that has it.
func (t *Table[R]) add(r R) (R, bool) {
	key := r.Thing().Key
	if old, taken := t.byKey[key]; taken {
		return old, false
	}
	if t.byKey == nil {
		t.byKey = make(map[string]R)
	}
	t.rows = append(t.rows, r)
	t.byKey[key] = r
	return r, true
}
