package report_test

import (
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/review/report"
)

// TestCauses gives each record that was edited once, with every channel that it reaches,
// however many the text would name.
func TestCauses(t *testing.T) {
	d := north(t)
	points := report.Causes(d)
	people := 0
	for i := range d.Comparison.Causes {
		if strings.HasPrefix(d.Comparison.Causes[i].Thing.String(), "operator ") {
			people++
		}
	}
	if want := len(d.Comparison.Causes) - people + 1; len(points) != want {
		t.Errorf("%d points, want %d: the operators stand together", len(points), want)
	}
	i := slices.IndexFunc(points, func(p report.Point) bool { return strings.Contains(p.Line[0].Text, "heron") })
	c := slices.IndexFunc(d.Comparison.Causes, func(c plandiff.Cause) bool { return c.Thing.Key == "heron" })
	effects := 0
	for _, detail := range points[i].Details {
		if detail.Depth == 2 {
			effects++
		}
	}
	if want := len(d.Comparison.Causes[c].Reach.Channels); effects != want || want <= 4 {
		t.Errorf("%d of %d channels are listed", effects, want)
	}
	if d.Unfold {
		t.Error("the document itself is to stay as it was")
	}
}

// TestBasis says what a verdict rests on, with who has the last word.
func TestBasis(t *testing.T) {
	d := north(t)
	if got := d.Basis(); !strings.HasPrefix(got, "Judged by ") || !strings.HasSuffix(got, "local law have the last word.") {
		t.Errorf("%q", got)
	}
	d.Verdict.Skipped = "no rule ran"
	if got := d.Basis(); strings.HasPrefix(got, "Judged by ") {
		t.Errorf("nothing was judged, and it says %q", got)
	}
}
