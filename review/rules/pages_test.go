package rules_test

import (
	"context"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

// TestPages reads each page and runs both of its examples.
func TestPages(t *testing.T) {
	for _, r := range rules.All() {
		t.Run(r.ID, func(t *testing.T) {
			page, err := review.ParsePage(r.Doc)
			if err != nil {
				t.Fatal(err)
			}
			if page.ID != r.ID {
				t.Errorf("the page is that of %q", page.ID)
			}
			if r.Edition < 2026 {
				t.Error("the rule has no edition")
			}
			fails := runExample(t, r, page, page.Fails)
			if !slices.ContainsFunc(fails, func(f review.Finding) bool { return f.Rule == r.ID }) {
				t.Errorf("the example that should fail does not: %v", fails)
			}
			for _, f := range fails {
				if f.Rule != r.ID {
					t.Errorf("the example that should fail has another fault: %s %s", f.Rule, f.What)
				}
			}
			if passes := runExample(t, r, page, page.Passes); len(passes) > 0 {
				t.Errorf("the example that should pass does not: %v", passes)
			}
		})
	}
}

// runExample gives what a rule finds in an example of its page. A rule about the
// policy needs what else is found: with those the rules run whose findings the
// example accepts, and what they find is not given. That of a change of policy is
// shown the change from the example that passes.
func runExample(t *testing.T, r *review.Rule, page review.Page, text string) []review.Finding {
	t.Helper()
	x := load(t, example(text))
	switch r.ID {
	case review.PolicyChanged:
		return judgeChange(t, only(), load(t, example(page.Passes)), x).Findings
	case rules.PlanTooLarge.ID:
		return check(t, only(r.ID), overflowing(t, text))
	case review.AcceptanceExpired, review.AcceptanceUnused:
		return checkAccepted(t, x)
	}
	return findings(t, r, example(text))
}

func judgeChange(t *testing.T, all []*review.Rule, old, new *plan.Expansion) *review.Verdict {
	t.Helper()
	v, err := review.Judge(context.Background(), all, plandiff.Compare(old, new), nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func checkAccepted(t *testing.T, x *plan.Expansion) []review.Finding {
	t.Helper()
	var accepted []string
	for _, a := range x.Plan.Acceptances.All() {
		accepted = append(accepted, a.Rule.V)
	}
	return slices.DeleteFunc(check(t, only(accepted...), x), func(f review.Finding) bool { return slices.Contains(accepted, f.Rule) })
}

// example makes a plan of the text on a page: below a header, unless it has one.
// A first line "# a -> b" puts a link beside it.
func example(text string) map[string]string {
	if strings.HasPrefix(text, "-- ") { // files with names of their own, such as a table
		files := map[string]string{"plan.yaml": header}
		for _, f := range txtar.Parse([]byte(text)).Files {
			files[f.Name] = string(f.Data)
		}
		return files
	}
	if strings.HasPrefix(text, "plan:") {
		return map[string]string{"plan.yaml": text}
	}
	files := map[string]string{"plan.yaml": header, "example.yaml": written(text)}
	first, _, _ := strings.Cut(text, "\n")
	if link, ok := strings.CutPrefix(first, "# "); ok && strings.Contains(link, " -> ") {
		files[link] = ""
	}
	return files
}

var soOn = regexp.MustCompile(`(?m)^( *)([a-z]+)-1:(.*) # and so on to [a-z]+-(\d+)$`)

// written writes out a line that ends in "# and so on to r-9" twice: working out
// all that it stands for would take seconds.
func written(text string) string {
	return soOn.ReplaceAllString(text, "$1$2-1:$3\n$1$2-2:$3")
}

// overflowing gives the plan of an example in which every zone holds every
// repeater. Whether they are too many is reckoned here; that Expand notices it is
// for the tests of package plan.
func overflowing(t *testing.T, text string) *plan.Expansion {
	t.Helper()
	x := load(t, example(text))
	total := 1
	for _, m := range soOn.FindAllStringSubmatch(text, -1) {
		n, err := strconv.Atoi(m[4])
		if err != nil {
			t.Fatal(err)
		}
		total *= n
	}
	if total > plan.MaxMembers {
		x.Overflow = x.Zones[1].Zone.Channels[0].At
	}
	return x
}
