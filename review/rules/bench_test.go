package rules_test

import (
	"bytes"
	"context"
	"fmt"
	"runtime"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
	"passband.example/review/rules"
)

// BenchmarkPipeline measures what a review does, on the plan of plantest.Text
// and the same with one written channel in a hundred at another power and one in
// a thousand with another key: each stage, and all of them from the bytes of two
// plans to the verdict.
func BenchmarkPipeline(b *testing.B) {
	for _, channels := range []int{1_000, 10_000, 100_000} {
		files := plantest.Text(channels, 1)
		edited := map[string][]byte{"plan.yaml": editLines(files["plan.yaml"])}
		old, new := plantest.Load(b, files), plantest.Load(b, edited)
		was, is := plan.Expand(old), plan.Expand(new)
		c := plandiff.Compare(was, is)
		ctx := context.Background()
		stages := []struct {
			name string
			run  func()
		}{
			{"load", func() { plantest.Load(b, files) }},
			{"expand", func() { plan.Expand(old) }},
			{"compare", func() { plandiff.Compare(was, is) }},
			{"check", func() { must(b, one(review.Check(ctx, rules.All(), is, today))) }},
			{"judge", func() { must(b, one(review.Judge(ctx, rules.All(), c, nil, today))) }},
			{"all", func() {
				c := plandiff.Compare(plan.Expand(plantest.Load(b, files)), plan.Expand(plantest.Load(b, edited)))
				must(b, one(review.Judge(ctx, rules.All(), c, nil, today)))
			}},
		}
		for _, s := range stages {
			b.Run(fmt.Sprintf("%s/%d", s.name, channels), func(b *testing.B) {
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				for b.Loop() {
					s.run()
				}
				runtime.ReadMemStats(&after)
				each := float64(b.N * channels)
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/each, "ns/channel")
				b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/each, "B/channel")
				b.ReportMetric(float64(after.Mallocs-before.Mallocs)/each, "allocs/channel")
			})
		}
	}
}

func one(_ *review.Verdict, err error) error { return err }

func must(b *testing.B, err error) {
	if err != nil {
		b.Fatal(err)
	}
}

// editLines edits the text of a plan as the benchmark says.
func editLines(text []byte) []byte {
	lines := bytes.Split(text, []byte("\n"))
	n := 0
	for i, line := range lines {
		if !bytes.HasPrefix(line, []byte("  ch-")) {
			continue
		}
		if n++; n%100 == 0 {
			lines[i] = bytes.Replace(line, []byte("power: high"), []byte("power: low"), 1)
		}
		if n%1000 == 1 {
			lines[i] = append([]byte("  renamed-"), line[5:]...)
		}
	}
	return bytes.Join(lines, []byte("\n"))
}
