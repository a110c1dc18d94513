package merge_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/generate"
	"passband.example/plandiff/merge"
)

// large gives the plan of a network: many repeaters, groups and zones, in one file.
func large(n int) string {
	var b strings.Builder
	b.WriteString("plan: Network\n\ngroups:\n")
	for i := range n {
		fmt.Fprintf(&b, "  g%d: {id: %d, label: G%d} # group %d\n", i, 99900000%16000000+i, i, i)
	}
	b.WriteString("\nrepeaters:\n")
	for i := range n {
		fmt.Fprintf(&b, "  r%d:\n    label: R%d\n    output: %d.%03d\n    split: +5\n    dmr: {color_code: %d, slot1: [g%d], slot2: [g%d]}\n\n", i, i, 440+i%5, i%1000, i%16, i, (i+1)%n)
	}
	b.WriteString("zones:\n")
	for i := range n / 10 {
		fmt.Fprintf(&b, "  z%d: {label: Z%d, channels: [r%d/1/*, r%d/2/*]}\n", i, i, i, i+1)
	}
	return b.String()
}

// A merge of 2,000 repeaters, in which each side changed two, takes about as long as
// reading the three plans.
func BenchmarkPlans(b *testing.B) {
	base := large(2000)
	ours := strings.Replace(strings.Replace(base, "label: R7\n", "label: X7\n", 1), "label: G99}", "label: H99}", 1)
	theirs := strings.Replace(strings.Replace(base, "label: R8\n", "label: X8\n", 1), "  z5: {label: Z5,", "  new: {channels: [r9/1/*]}\n  z5: {label: Z5,", 1)
	for b.Loop() {
		r, err := merge.Plans(files(base), files(ours), files(theirs), merge.Labels{})
		if err != nil || len(r.Conflicts) > 0 {
			b.Fatal(err, r.Conflicts)
		}
	}
}

// A merge of plans of the usual shape, in which each side changed ten records: what it
// takes beyond reading the base should follow from those.
func BenchmarkSizes(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			v := three{made(n, untouched), made(n, often(1_000, (*generate.Club).Change)), made(n, often(1_000, (*generate.Club).Retune))}
			for b.Loop() {
				merges(b, v)
			}
		})
	}
}

// Many records at once, as when a second club joins.
func BenchmarkManyNew(b *testing.B) {
	base := large(2000)
	add := func(prefix string) string {
		var more strings.Builder
		for i := range 500 {
			fmt.Fprintf(&more, "  %s%d: {simplex: 146.52, fm: {}}\n", prefix, i)
		}
		return base + "channels:\n" + more.String()
	}
	ours, theirs := add("a"), add("b")
	for b.Loop() {
		r, err := merge.Plans(files(base), files(ours), files(theirs), merge.Labels{})
		if err != nil || len(r.Conflicts) > 0 {
			b.Fatal(err, r.Conflicts)
		}
	}
}
