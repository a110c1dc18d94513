package merge

import (
	"cmp"
	"fmt"
	"slices"
)

// lists merges a list that both sides changed. Of two items in the base, the order
// is that of the side that changed it. Where no order serves both, clash is true
// and the order is that of the preferred side.
func lists(base, ours, theirs []string, prefer side) (merged []string, clash bool) {
	b, o, t := labeled(base), labeled(ours), labeled(theirs)
	inB, inO, inT := places(b), places(o), places(t)
	var common []string // what all three have
	for _, item := range b {
		if has(inO, item) && has(inT, item) {
			common = append(common, item)
		}
	}
	common, clash = ordered(common, inB, inO, inT, prefer)
	merged = slices.Clone(common)
	merged = insertNew(merged, o, inB, nil)
	merged = insertNew(merged, t, inB, inO)
	for i, item := range merged {
		merged[i] = unlabeled(item)
	}
	return merged, clash
}

// labeled tells equal items of a list apart by a number in front of them.
func labeled(list []string) []string {
	seen := make(map[string]int, len(list))
	out := make([]string, len(list))
	for i, item := range list {
		out[i] = fmt.Sprintf("%08d%s", seen[item], item)
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
			at := inO
			if prefer == theirSide {
				at = inT
			}
			slices.SortFunc(sorted, func(x, y string) int { return cmp.Compare(at[x], at[y]) })
			return sorted, true
		}
	}
	return sorted, false
}

// insertNew puts the items of a side that the base does not have, nor the other
// side, behind the item that they stand behind there.
func insertNew(merged, list []string, inB, other map[string]int) []string {
	at := -1 // behind which item of merged
	for _, item := range list {
		if i := slices.Index(merged, item); i >= 0 {
			at = i
			continue
		}
		if has(inB, item) || has(other, item) {
			continue // the other side removed it, or has put it in
		}
		at++
		for other != nil && at < len(merged) && isNewTo(merged[at], list, inB) {
			at++ // what the other side put in at this place
		}
		merged = slices.Insert(merged, at, item)
	}
	return merged
}

func isNewTo(item string, list []string, inB map[string]int) bool {
	return !has(inB, item) && !slices.Contains(list, item)
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
