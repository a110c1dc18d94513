package plan_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"passband.example/plandiff/plan"
)

// rows repeats a line with its number in the places of %d.
func rows(n int, line string) string {
	var text strings.Builder
	for i := range n {
		text.WriteString(strings.ReplaceAll(line, "%d", fmt.Sprint(i)))
	}
	return text.String()
}

// Plans that are made to make Expand work or store without end. The bounds are ten
// times and more what was measured on the machine of November 2026 (2 cores).
func TestHostileExpansion(t *testing.T) {
	names := func(n int, form string) string { return strings.TrimSuffix(rows(n, form+","), ",") }
	for _, test := range []struct {
		name, why string
		text      string
		overflow  bool
	}{
		{"patterns for all", "each of 2,000 zones holds 20,000 talk paths",
			"repeaters:\n" + rows(1_000, "  r%d: {dmr: {slot1: [a, b, c, d, e, f, g, h, i, j], slot2: [a, b, c, d, e, f, g, h, i, j]}}\n") +
				"zones:\n" + rows(2_000, "  z%d: {channels: [\"*/*\"]}\n"), true},
		{"different patterns", "a look at all talk paths for each of 100,000",
			"repeaters:\n" + rows(100, "  r%d: {dmr: {slot1: ["+names(200, "g%d")+"]}}\n") +
				"zones: {z: {channels: [" + names(100_000, "\"*/1/x%d\", \"*/x%d/*\"") + "]}}", false},
		{"one large repeater", "a look at its 100,000 groups for each of 100,000 channels and entries",
			"repeaters: {r: {dmr: {slot1: [" + names(100_000, "g%d") + "]}}}\nchannels:\n" + rows(100_000, "  c%d: {path: r/1/g%d}\n") +
				"zones: {z: {channels: [" + names(100_000, "r/*/g%d") + "]}}", false},
		{"its receive list", "100,000 groups heard on 100,000 channels, in four radios",
			"repeaters: {r: {dmr: {receive_list: repeater, slot1: [" + names(100_000, "g%d") + "]}}}\nzones: {z: {channels: [r/*]}}\nradios: {a: {}, b: {}, c: {}, d: {}}", false},
		{"zones in a chain", "each holds the next, and so all behind it",
			"zones:\n" + zoneChain(20_000), true},
		{"zones in one another", "each of 300 holds all",
			"zones:\n" + rows(300, "  z%d: {channels: ["+names(300, "zone:z%d")+"]}\n"), true},
		{"channels in a chain", "each names the next", "channels:\n" + chain(50_000), false},
		{"channels in a circle", "each leads back to itself", "channels:\n" + chain(50_000) + "  c50000: {path: c0}\n", false},
		{"nothing is there", "50,000 references, each like 50,000 names",
			"channels:\n" + rows(50_000, "  c%d: {simplex: 146.52}\n") + "zones: {z: {channels: [" + names(50_000, "x%d") + "]}}", false},
		{"nothing is there for groups", "50,000 references on talk paths",
			"groups:\n" + rows(20_000, "  g%d: {id: 1}\n") + "repeaters: {r: {dmr: {slot1: [" + names(50_000, "x%d") + "]}}}", false},
		{"radios", "each of 20,000 looks at 2,000 members", "channels:\n" + rows(2_000, "  c%d: {simplex: 146.52}\n") +
			"zones: {z: {channels: [" + names(2_000, "c%d") + "]}}\nradios:\n" + rows(20_000, "  r%d: {}\n"), true},
	} {
		t.Run(test.name, func(t *testing.T) {
			p := loadFS(t, fstest.MapFS{"plan.yaml": {Data: []byte(test.text)}})
			if len(p.Problems) > 0 {
				t.Fatal(p.Problems[0])
			}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			x := plan.Expand(p)
			spent := time.Since(start)
			runtime.ReadMemStats(&after)
			allocated := (after.TotalAlloc - before.TotalAlloc) >> 20
			t.Logf("%v, %d MB allocated, %d channels, %d unresolved, %d cycles", spent.Round(time.Millisecond), allocated, len(x.Channels), len(x.Unresolved), len(x.Cycles))
			if x.Overflow.IsZero() == test.overflow {
				t.Errorf("%s: overflow at %v", test.why, x.Overflow)
			}
			if spent > 60*time.Second || allocated > 4_000 {
				t.Errorf("%s: took %v and %d MB", test.why, spent, allocated)
			}
		})
	}
}

// chain makes channels each of which names the next.
func chain(n int) string {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, "  c%d: {path: c%d}\n", i, i+1)
	}
	return text.String()
}

// zoneChain makes zones each of which holds the next.
func zoneChain(n int) string {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, "  z%d: {channels: [zone:z%d]}\n", i, i+1)
	}
	return text.String() + fmt.Sprintf("  z%d: {}\n", n)
}
