package plandiff

import (
	"math/bits"
	"slices"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// TestFewestMoves compares the number of moves with that of a brute force: the
// largest set of items that need not move.
func TestFewestMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old := rapid.SliceOfNDistinct(rapid.IntRange(0, 20), 0, 9, rapid.ID).Draw(t, "old")
		new := rapid.SliceOfNDistinct(rapid.IntRange(0, 20), 0, 9, rapid.ID).Draw(t, "new")
		steps := listSteps(numbers(old), numbers(new))
		moves := 0
		for _, s := range steps {
			if s.Op == Moved {
				moves++
			}
		}
		if least := leastMoves(old, new); moves != least {
			t.Fatalf("%v to %v: %d moves, and %d would do: %v", old, new, moves, least, steps)
		}
		if got := replay(numbers(old), steps); !slices.Equal(got, numbers(new)) {
			t.Fatalf("%v to %v: the steps %v lead to %v", old, new, steps, got)
		}
	})
}

func numbers(ns []int) []string {
	texts := make([]string, 0, len(ns))
	for _, n := range ns {
		texts = append(texts, strconv.Itoa(n))
	}
	return texts
}

// leastMoves tries every set of common items that stay, and counts the rest.
func leastMoves(old, new []int) int {
	var both []int // places in new, in old order
	for _, n := range old {
		if i := slices.Index(new, n); i >= 0 {
			both = append(both, i)
		}
	}
	least := len(both)
	for set := range 1 << len(both) {
		last, ordered := -1, true
		for i, place := range both {
			if set&(1<<i) != 0 {
				ordered = ordered && place > last
				last = place
			}
		}
		if ordered {
			least = min(least, len(both)-bits.OnesCount(uint(set)))
		}
	}
	return least
}

// replay does the steps to a list: what went and what moved is lifted out, and
// what moved and what came is put in at its place.
func replay(list []string, steps []Step) []string {
	lifted := make(map[int]bool)
	var put []Step
	for _, s := range steps {
		if s.From > 0 {
			lifted[s.From-1] = true
		}
		if s.To > 0 {
			put = append(put, s)
		}
	}
	var now []string
	for i, text := range list {
		if !lifted[i] {
			now = append(now, text)
		}
	}
	slices.SortFunc(put, func(a, b Step) int { return a.To - b.To })
	for _, s := range put {
		now = slices.Insert(now, s.To-1, s.Text)
	}
	return append([]string{}, now...)
}

// TestEqualItems: an item may stand in a list twice.
func TestEqualItems(t *testing.T) {
	steps := listSteps([]string{"a", "b", "a"}, []string{"a", "a", "b", "b"})
	if got := replay([]string{"a", "b", "a"}, steps); !slices.Equal(got, []string{"a", "a", "b", "b"}) {
		t.Errorf("%v leads to %v", steps, got)
	}
}

// TestLeastTotal compares the assignment with a brute force over all pairings.
func TestLeastTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.IntRange(1, 5).Draw(t, "rows")
		columns := rapid.IntRange(1, 5).Draw(t, "columns")
		limit := rapid.IntRange(1, 12).Draw(t, "limit")
		cost := make([][]int, rows)
		for i := range cost {
			cost[i] = rapid.SliceOfN(rapid.IntRange(0, 15), columns, columns).Draw(t, "cost")
		}
		pairs := assign(cost, limit)
		total, used := 0, make(map[int]bool)
		for i, j := range pairs {
			switch {
			case j < 0:
				total += limit
			case used[j]:
				t.Fatalf("column %d is taken twice: %v", j, pairs)
			default:
				used[j] = true
				total += cost[i][j]
				if cost[i][j] >= limit {
					t.Fatalf("a pair costs %d, and staying alone %d", cost[i][j], limit)
				}
			}
		}
		if least := leastTotal(cost, limit, 0, 0); total != least {
			t.Fatalf("%v at limit %d: %v costs %d, and %d would do", cost, limit, pairs, total, least)
		}
	})
}

func leastTotal(cost [][]int, limit, row int, used uint) int {
	if row == len(cost) {
		return 0
	}
	least := limit + leastTotal(cost, limit, row+1, used)
	for j, c := range cost[row] {
		if used&(1<<j) == 0 {
			least = min(least, c+leastTotal(cost, limit, row+1, used|1<<j))
		}
	}
	return least
}

// TestTextPieces shows a changed label piece by piece.
func TestTextPieces(t *testing.T) {
	pieces := TextPieces("Ridge State", "Ridge Local")
	var old, new string
	for _, p := range pieces {
		if p.Op != Came {
			old += p.Text
		}
		if p.Op != Went {
			new += p.Text
		}
	}
	if old != "Ridge State" || new != "Ridge Local" || pieces[0] != (Piece{0, "Ridge "}) {
		t.Errorf("pieces: %v", pieces)
	}
}
