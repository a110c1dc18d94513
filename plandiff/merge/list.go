package merge

import (
	"cmp"
	"container/list"
	"slices"
	"strconv"
)

// lists merges a list that both sides changed. Of two items in the base, the order
// is that of the side that changed it. Where no order serves both, clash is true
// and the order is that of the preferred side.
func lists(base, ours, theirs []string, prefer side) (merged []string, clash bool) {
	switch {
	case slices.Equal(ours, theirs), slices.Equal(theirs, base):
		return ours, false
	case slices.Equal(ours, base):
		return theirs, false
	}
	head := 0
	for shared(base, ours, theirs, head) {
		head++
	}
	merged, clash = orders(base[head:], ours[head:], theirs[head:], prefer)
	return append(slices.Clip(ours[:head]), merged...), clash
}

// shared reports whether three lists have the same item at i.
func shared(base, ours, theirs []string, i int) bool {
	return i < min(len(base), len(ours), len(theirs)) && base[i] == ours[i] && base[i] == theirs[i]
}

// orders merges what follows the items with which all three lists begin.
func orders(base, ours, theirs []string, prefer side) (merged []string, clash bool) {
	b, o, t := labeled(base), labeled(ours), labeled(theirs)
	inB, inO, inT := places(b), places(o), places(t)
	var common []string // what all three have
	for _, item := range b {
		if has(inO, item) && has(inT, item) {
			common = append(common, item)
		}
	}
	common, clash = ordered(common, inB, inO, inT, prefer)
	m := newChain(common)
	m.putIn(o, inB, nil)
	m.putIn(t, inB, inO)
	return m.items(), clash
}

// labeled tells equal items of a list apart by a number in front of them.
func labeled(list []string) []string {
	seen := make(map[string]int, len(list))
	out := make([]string, len(list))
	for i, item := range list {
		n := strconv.Itoa(seen[item])
		out[i] = "00000000"[:max(0, 8-len(n))] + n + item
		seen[item]++
	}
	return out
}

func unlabeled(item string) string { return item[8:] }

func places(list []string) map[string]int {
	at := make(map[string]int, len(list))
	for i, item := range list {
		at[item] = i
	}
	return at
}

func has(at map[string]int, item string) bool {
	_, ok := at[item]
	return ok
}

// ordered sorts the items that all three lists have. Each pair stands as the side
// has it that changed it; the items are in order if every one of them then comes
// before another number of others.
func ordered(items []string, inB, inO, inT map[string]int, prefer side) ([]string, bool) {
	byB, byO, byT := sortedBy(items, inB), sortedBy(items, inO), sortedBy(items, inT)
	switch {
	case slices.Equal(byT, byB), slices.Equal(byO, byT):
		return byO, false
	case slices.Equal(byO, byB):
		return byT, false
	case len(items) > mostPairs:
		return preferred(byO, byT, prefer), true
	}
	before := func(at map[string]int, x, y string) bool { return at[x] < at[y] }
	wins := make(map[string]int, len(items))
	for i, x := range items {
		for _, y := range items[i+1:] {
			o, t := before(inO, x, y), before(inT, x, y)
			first := o
			if o == before(inB, x, y) {
				first = t
			}
			if first {
				wins[x]++
			} else {
				wins[y]++
			}
		}
	}
	sorted := slices.Clone(items)
	slices.SortStableFunc(sorted, func(x, y string) int { return cmp.Compare(wins[y], wins[x]) })
	for i, x := range sorted {
		if wins[x] != len(sorted)-1-i {
			return preferred(byO, byT, prefer), true
		}
	}
	return sorted, false
}

// mostPairs bounds the items that are compared pair by pair: a radio's zones and scan
// lists are far shorter.
const mostPairs = 2000

func sortedBy(items []string, at map[string]int) []string {
	sorted := slices.Clone(items)
	slices.SortFunc(sorted, func(x, y string) int { return cmp.Compare(at[x], at[y]) })
	return sorted
}

func preferred(ours, theirs []string, prefer side) []string {
	if prefer == theirSide {
		return theirs
	}
	return ours
}

// A chain is a list in the making, into which items are put behind others.
type chain struct {
	list *list.List
	at   map[string]*list.Element
}

func newChain(items []string) *chain {
	c := &chain{list: list.New(), at: make(map[string]*list.Element, len(items))}
	for _, item := range items {
		c.at[item] = c.list.PushBack(item)
	}
	return c
}

// putIn puts in the items of a side that the base does not have, nor the other side,
// each behind the item that it stands behind there.
func (c *chain) putIn(items []string, inB, other map[string]int) {
	mine := places(items)
	var behind *list.Element
	for _, item := range items {
		if e := c.at[item]; e != nil {
			behind = e
			continue
		}
		if has(inB, item) || has(other, item) {
			continue // the other side removed it, or has put it in
		}
		next := c.after(behind)
		for ; next != nil; next = next.Next() { // behind what the other side put in here
			if new := next.Value.(string); has(inB, new) || has(mine, new) {
				break
			}
			behind = next
		}
		if behind == nil {
			behind = c.list.PushFront(item)
		} else {
			behind = c.list.InsertAfter(item, behind)
		}
		c.at[item] = behind
	}
}

func (c *chain) after(e *list.Element) *list.Element {
	if e == nil {
		return c.list.Front()
	}
	return e.Next()
}

func (c *chain) items() []string {
	all := make([]string, 0, c.list.Len())
	for e := c.list.Front(); e != nil; e = e.Next() {
		all = append(all, unlabeled(e.Value.(string)))
	}
	return all
}

// sets merges a list whose order means nothing.
func sets(base, ours, theirs []string) []string {
	count := func(list []string) map[string]int {
		n := make(map[string]int)
		for _, item := range list {
			n[item]++
		}
		return n
	}
	b, o, t := count(base), count(ours), count(theirs)
	var merged []string
	done := make(map[string]bool)
	for _, item := range slices.Concat(ours, theirs) {
		if done[item] {
			continue
		}
		done[item] = true
		n := o[item]
		if o[item] == b[item] {
			n = t[item]
		}
		for range n {
			merged = append(merged, item)
		}
	}
	return merged
}
