package page_test

import (
	"fmt"
	"io"
	"strings"
	"testing"

	"passband.example/plandiff/plan/plantest"
	"passband.example/review/page"
)

// TestLarge looks at what a page leaves out of a large plan, and that it says so.
func TestLarge(t *testing.T) {
	d := standing(t, expand(t, plantest.FS(plantest.Text(10_000, 1))))
	text := render(t, d)
	root := parse(t, text)
	if n := len(elements(elements(byID(root, "channel-table"), "tbody")[0], "tr")); n != page.MostRows {
		t.Errorf("%d rows stand in the table", n)
	}
	for id, want := range map[string]string{
		"channel-status": fmt.Sprintf("The first %d of %d channels. %d channels more are not in this table without a script; passband show NAME", page.MostRows, len(d.Expansion.Channels), len(d.Expansion.Channels)-page.MostRows),
		"zones":          "more are left out here",
	} {
		if got := textOf(byID(root, id)); !strings.Contains(got, want) {
			t.Errorf("#%s does not say %q", id, want)
		}
	}
	if per := len(text) / len(d.Expansion.Channels); per > 200 {
		t.Errorf("the page has %d bytes a channel", per)
	}
}

// BenchmarkWrite measures how long a page takes, and how large it is.
func BenchmarkWrite(b *testing.B) {
	for _, n := range []int{150, 10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := standing(b, expand(b, plantest.FS(plantest.Text(n, 1))))
			size := len(render(b, d))
			b.ReportAllocs()
			for b.Loop() {
				if err := page.Write(io.Discard, d); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(size), "bytes/page")
			b.ReportMetric(float64(size)/float64(n), "bytes/channel")
		})
	}
}
