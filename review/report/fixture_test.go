package report_test

import (
	"context"
	"io/fs"
	"testing"
	"testing/fstest"

	"passband.example/plandiff"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// today is the day on which the tests judge.
var today = plan.Date{Year: 2026, Month: 11, Day: 25}

// head is the commit that the tests judge.
const head = "d231f0976500000000000000000000000000beef"

// judged gives the document of a change from one plan to another.
func judged(t testing.TB, old, new fs.FS) *report.Document {
	t.Helper()
	before, now := expand(t, old), expand(t, new)
	c := plandiff.Compare(before, now)
	v, err := review.Judge(context.Background(), rules.All(), c, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return &report.Document{
		Old: &report.Origin{Name: "b6a33d1f6e", Hash: "b6a33d1f6e00000000000000000000000000beef", Note: "where north left main"},
		New: &report.Origin{Name: "north", Hash: head}, Comparison: c, Verdict: v, Expansion: now,
	}
}

func expand(t testing.TB, files fs.FS) *plan.Expansion {
	t.Helper()
	p, err := plan.Load(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Expand(p)
}

// north is the demo's proposal as a pull request would bring it.
func north(t testing.TB) *report.Document {
	t.Helper()
	var parent fs.FS
	for _, c := range demo.History() {
		if c.Branch == demo.Proposal {
			return judged(t, parent, demo.Branch())
		}
		parent = c.Plan
	}
	t.Fatal("the demo has no proposal")
	return nil
}

// of makes a plan of a text.
func of(text string) fs.FS { return fstest.MapFS{"plan.yaml": {Data: []byte(text)}} }
