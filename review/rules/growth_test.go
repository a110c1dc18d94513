package rules_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
)

// TestGrowth holds what a review does to growing with the size of the plan and no
// faster, for plans and edits that are large in each way that a plan can be.
func TestGrowth(t *testing.T) {
	for _, c := range growing {
		t.Run(c.name, func(t *testing.T) {
			small, large := c.pair(c.size/10), c.pair(c.size)
			plantest.Grows(t, c.why, c.size, func() { pipeline(t, small) }, func() { pipeline(t, large) })
		})
	}
}

// revisions are the texts of two plans.
type revisions struct{ old, new map[string][]byte }

// pipeline does what a review does, from texts to a verdict.
func pipeline(t *testing.T, r revisions) {
	t.Helper()
	loaded := plan.LoadEach(context.Background(), plantest.FS(r.old), plantest.FS(r.new))
	c := plandiff.Compare(plan.Expand(loaded[0].Plan), plan.Expand(loaded[1].Plan))
	if _, err := review.Judge(context.Background(), rules.All(), c, nil, today); err != nil {
		t.Fatal(err)
	}
}

var growing = []struct {
	name, why string
	size      int
	pair      func(n int) revisions
}{
	{"channels", "one edit in a hundred records", 20_000, func(n int) revisions {
		old := plantest.Text(n, 1)
		return revisions{old, map[string][]byte{"plan.yaml": editLines(old["plan.yaml"])}}
	}},
	{"renames", "every key is new, and so is what it stands for", 10_000, func(n int) revisions {
		record := func(prefix string) func(i int) string {
			return func(i int) string {
				return fmt.Sprintf("  %s-%d: {label: %s %d, simplex: %d.%04d, fm: {}}", prefix, i, prefix, i, 144+i/10_000, i%10_000)
			}
		}
		return revisions{section("channels", n, record("a")), section("channels", n, record("b"))}
	}},
	{"mass edits", "many records differ in one field, and all have new keys", 10_000, func(n int) revisions {
		record := func(prefix, power string) func(i int) string {
			return func(i int) string {
				return fmt.Sprintf("  %s-%d: {simplex: 146.52, fm: {}, power: %s, note: n%d}", prefix, i, power, i)
			}
		}
		return revisions{section("channels", n, record("a", "low")), section("channels", n, record("b", "high"))}
	}},
	{"moves", "a long zone in another order", 10_000, func(n int) revisions {
		order := make([]int, n)
		for i := range order {
			order[i] = i
		}
		old := longZone(order)
		rand.New(rand.NewPCG(1, 2)).Shuffle(n, func(i, j int) { order[i], order[j] = order[j], order[i] })
		return revisions{old, longZone(order)}
	}},
	{"duplicates", "keys that stand there twice", 100_000, func(n int) revisions {
		texts := section("messages", n, func(i int) string { return fmt.Sprintf("  m%d: x", i/2) })
		return revisions{texts, texts}
	}},
	{"operators", "a table of people", 30_000, func(n int) revisions {
		table := func(name string) map[string][]byte {
			text := bytes.NewBufferString("id,callsign,name\n")
			for i := range n {
				fmt.Fprintf(text, "%d,N%dQR%c,%s %d\n", 9_990_001+i%9_000, i%10, 'A'+i%26, name, i%(n/2))
			}
			return map[string][]byte{"plan.yaml": []byte(header), "operators.csv": text.Bytes()}
		}
		return revisions{table("Ann"), table("Ben")}
	}},
	{"nested zones", "each zone stands in the next", 10_000, func(n int) revisions {
		zones := func(power string) map[string][]byte {
			texts := section("zones", n, func(i int) string { return fmt.Sprintf("  z%d: {channels: [\"zone:z%d\", c]}", i, i+1) })
			texts["plan.yaml"] = append(texts["plan.yaml"], "channels:\n  c: {simplex: 146.52, fm: {}, power: "+power+"}\n"...)
			return texts
		}
		return revisions{zones("low"), zones("high")}
	}},
	{"one frequency", "everybody on one channel", 5_000, func(n int) revisions {
		repeater := func(power string) func(i int) string {
			return func(i int) string {
				return fmt.Sprintf("  r%d: {callsign: N0QRV, output: 444.325, split: +5, fm: {tone: 103.5}, power: %s, site: {lat: %d.%03d, lon: -104}}", i, power, 34+i%8, i%1000)
			}
		}
		return revisions{section("repeaters", n, repeater("low")), section("repeaters", n, repeater("high"))}
	}},
}

// section writes a plan with one section of n records.
func section(name string, n int, record func(i int) string) map[string][]byte {
	text := bytes.NewBufferString(header + name + ":\n")
	for i := range n {
		fmt.Fprintln(text, record(i))
	}
	return map[string][]byte{"plan.yaml": text.Bytes()}
}

func longZone(order []int) map[string][]byte {
	texts := section("channels", len(order), func(i int) string {
		return fmt.Sprintf("  c%d: {simplex: %d.%04d, fm: {}}", i, 144+i/10_000, i%10_000)
	})
	members := make([]string, len(order))
	for i, n := range order {
		members[i] = fmt.Sprint("c", n)
	}
	texts["plan.yaml"] = slices.Concat(texts["plan.yaml"], []byte("zones:\n  all: {channels: ["+strings.Join(members, ", ")+"]}\n"))
	return texts
}
