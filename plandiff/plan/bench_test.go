package plan_test

import (
	"fmt"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// The plan is that of performance.md, part 1. What one channel costs is
// reported besides: bytes of text, bytes of memory and allocations.
func BenchmarkLoad(b *testing.B) {
	each(b, func(b *testing.B, files map[string][]byte) func() {
		b.SetBytes(int64(len(files["plan.yaml"])))
		return func() {
			if p := plantest.Load(b, files); len(p.Problems) > 0 {
				b.Fatal(p.Problems)
			}
		}
	})
}

func BenchmarkExpand(b *testing.B) {
	each(b, func(b *testing.B, files map[string][]byte) func() {
		p := plantest.Load(b, files)
		return func() { plan.Expand(p) }
	})
}

func BenchmarkFiles(b *testing.B) {
	each(b, func(b *testing.B, files map[string][]byte) func() {
		p := plantest.Load(b, files)
		return func() {
			if _, err := plan.Files(p); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func each(b *testing.B, prepare func(*testing.B, map[string][]byte) func()) {
	for _, channels := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprint(channels), func(b *testing.B) {
			run := prepare(b, plantest.Text(channels, 1))
			b.ReportAllocs()
			for b.Loop() {
				run()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*channels), "ns/channel")
		})
	}
}
