package license

import (
	"slices"
	"sort"

	"passband.example/plandiff/signal"
)

// halves counts half hertz, so that half of an odd width is exact.
type halves int64

// A reach is what an emission occupies, in half hertz.
type reach struct{ low, high halves }

// reachOf returns the interval of a width around a center: 2f-B to 2f+B.
func reachOf(center, width signal.Hertz) reach {
	return reach{halves(2*center - width), halves(2*center + width)}
}

// point returns the reach that meets every range with f in it or on its edge.
func point(f signal.Hertz) reach { return reachOf(f, 1) }

// extended is anything with edges.
type extended interface {
	extent() (low, high signal.Hertz)
}

// An index finds what overlaps an interval, in logarithmic time where ranges are short or
// few of them overlap.
type index[T extended] struct {
	items []T      // by lower edge
	low   []halves // of each item
	top   []halves // the highest upper edge of the items up to each
}

func newIndex[T extended](items []T) index[T] {
	x := index[T]{items: slices.Clone(items)}
	slices.SortStableFunc(x.items, func(a, b T) int {
		lowA, highA := a.extent()
		lowB, highB := b.extent()
		if lowA != lowB {
			return int(min(max(lowA-lowB, -1), 1))
		}
		return int(min(max(highA-highB, -1), 1))
	})
	top := halves(0)
	for _, item := range x.items {
		low, high := item.extent()
		top = max(top, halves(2*high))
		x.low, x.top = append(x.low, halves(2*low)), append(x.top, top)
	}
	return x
}

// overlapping returns the items that have more than an edge in common with r, by lower
// edge.
func (x index[T]) overlapping(r reach) []T {
	var found []T
	end := sort.Search(len(x.low), func(i int) bool { return x.low[i] >= r.high })
	for i := end - 1; i >= 0 && x.top[i] > r.low; i-- {
		if _, high := x.items[i].extent(); halves(2*high) > r.low {
			found = append(found, x.items[i])
		}
	}
	slices.Reverse(found)
	return found
}

// any tells whether some item that has more than an edge in common with r is one that is
// wanted.
func (x index[T]) any(r reach, wanted func(T) bool) bool {
	end := sort.Search(len(x.low), func(i int) bool { return x.low[i] >= r.high })
	for i := end - 1; i >= 0 && x.top[i] > r.low; i-- {
		if _, high := x.items[i].extent(); halves(2*high) > r.low && wanted(x.items[i]) {
			return true
		}
	}
	return false
}
