package rules_test

import (
	"context"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

// today is the day on which the tests judge.
var today = plan.Date{Year: 2026, Month: 11, Day: 25}

// header is what an example on a page leaves out.
const header = "plan: Example\nedition: 2026\nregion: US\nlicense: technician\n"

// load reads and expands a plan. A file with the name "a -> b" is a link from a to b.
func load(t *testing.T, files map[string]string) *plan.Expansion {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		if from, to, link := strings.Cut(name, " -> "); link {
			fsys[from] = &fstest.MapFile{Data: []byte(to), Mode: fs.ModeSymlink}
			continue
		}
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	p, err := plan.Load(context.Background(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Expand(p)
}

// only gives all rules, of which none but those with the IDs look at a plan.
func only(ids ...string) []*review.Rule {
	all := rules.All()
	for i, r := range all {
		if !slices.Contains(ids, r.ID) {
			quiet := *r
			quiet.Run = nil
			all[i] = &quiet
		}
	}
	return all
}

// findings runs one rule and gives what it found; loading counts as a rule too.
func findings(t *testing.T, r *review.Rule, files map[string]string) []review.Finding {
	t.Helper()
	return check(t, only(r.ID), load(t, files))
}

func check(t *testing.T, all []*review.Rule, x *plan.Expansion) []review.Finding {
	t.Helper()
	v, err := review.Check(context.Background(), all, x, today)
	if err != nil {
		t.Fatal(err)
	}
	return v.Findings
}

// TestList wants each rule once, with a page of its own and none left over.
func TestList(t *testing.T) {
	seen := make(map[string]bool)
	for _, r := range rules.All() {
		if seen[r.ID] {
			t.Errorf("the ID %s is used twice", r.ID)
		}
		seen[r.ID] = true
	}
	pages, err := filepath.Glob("*.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range pages {
		id := strings.ReplaceAll(strings.TrimSuffix(page, ".md"), "_", "-")
		if !seen[id] && id != "index" {
			t.Errorf("the page %s has no rule", page)
		}
		delete(seen, id)
	}
	for id := range seen {
		t.Errorf("the rule %s has no page file", id)
	}
}
