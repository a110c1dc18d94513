package tables_test

import (
	"fmt"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/tables"
)

var sizes = []int{150, 10_000, 100_000}

// BenchmarkWrite writes the tables of the neutral layout.
func BenchmarkWrite(b *testing.B) {
	for _, n := range sizes {
		x := plan.Expand(plantest.Load(b, plantest.Text(n, 1)))
		l := neutral(b)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := tables.Write(x, x.Fits[0].Radio.Key.V, l); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkRead reads those tables back: into the plan that they are of, and into none.
func BenchmarkRead(b *testing.B) {
	nothing, err := tables.New("Nothing yet")
	if err != nil {
		b.Fatal(err)
	}
	for _, n := range sizes {
		x := plan.Expand(plantest.Load(b, plantest.Text(n, 1)))
		l := neutral(b)
		out, err := tables.Write(x, "", l)
		if err != nil {
			b.Fatal(err)
		}
		for name, into := range map[string]*plan.Expansion{"same": x, "new": nothing} {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				for b.Loop() {
					in, err := tables.Read(into, "", l, out.Files)
					if err != nil || len(in.Problems) > 0 {
						b.Fatal(err, in.Problems)
					}
				}
			})
		}
	}
}

func neutral(tb testing.TB) *tables.Layout {
	tb.Helper()
	l, err := tables.Neutral()
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// BenchmarkCarry puts one changed label into the files of the plan.
func BenchmarkCarry(b *testing.B) {
	for _, n := range sizes {
		files := plantest.Text(n, 1)
		x := plan.Expand(plantest.Load(b, files))
		table := []tables.File{{Name: "groups.csv", Data: []byte("Key,Group\ng0001,Another\n")}}
		in, err := tables.Read(x, "", neutral(b), table)
		if err != nil || len(in.Problems) > 0 {
			b.Fatal(err, in.Problems)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if texts, _, err := tables.Carry(files, x, in); err != nil || len(texts) != 1 {
					b.Fatal(err, len(texts))
				}
			}
		})
	}
}
