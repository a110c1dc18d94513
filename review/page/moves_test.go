package page

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestInOrder holds the part that did not move against all parts there are.
func TestInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.Permutation([]int{0, 1, 2, 3, 4, 5, 6, 7}[:rapid.IntRange(0, 8).Draw(t, "length")]).Draw(t, "list")
		kept := inOrder(list)
		var part []int
		for _, v := range list {
			if kept[v] {
				part = append(part, v)
			}
		}
		if !slices.IsSorted(part) || len(part) != len(kept) {
			t.Fatalf("of %v stays %v", list, part)
		}
		longest := 0
		for set := range 1 << len(list) {
			var one []int
			for i, v := range list {
				if set>>i&1 == 1 {
					one = append(one, v)
				}
			}
			if slices.IsSorted(one) {
				longest = max(longest, len(one))
			}
		}
		if len(part) != longest {
			t.Fatalf("of %v stays %v, and %d could", list, part, longest)
		}
	})
}

// TestMark marks what became of the steps of a zone.
func TestMark(t *testing.T) {
	for _, c := range []struct{ name, before, after, want, why string }{
		{"the same", "abc", "abc", "   |   ", "nothing differs"},
		{"one more", "ab", "axb", "  | + ", "the others only shift"},
		{"one less", "axb", "ab", " - |  ", "the same the other way"},
		{"moved to the front", "abcd", "dabc", "   m|m   ", "one act of a person, one mark on each side"},
		{"swapped ends", "abcd", "dbca", "m  m|m  m", "two moved, two stay"},
		{"all other", "ab", "xy", "--|++", "nothing in common"},
		{"behaves differently", "aC", "aC", "  | ~", "the channel is another on the air"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := &sides{changed: map[string]*fate{"C": {Was: "c"}}, nowName: map[string]string{}}
			before, after := cellsNamed(c.before), cellsNamed(c.after)
			differs := s.mark(before, after)
			if got := signs(before) + "|" + signs(after); got != c.want || differs != (c.name != "the same") {
				t.Errorf("%q, want %q: %s", got, c.want, c.why)
			}
		})
	}
}

func cellsNamed(names string) (all []cell) {
	for _, r := range names {
		all = append(all, cell{Name: string(r)})
	}
	return all
}

func signs(all []cell) string {
	text := ""
	for _, c := range all {
		text += map[string]string{"": " ", "came": "+", "went": "-", "moved": "m", "changed": "~"}[c.State]
	}
	return text
}
