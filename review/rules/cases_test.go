package rules_test

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

// elsewhere are the rules with tests of their own: those about the policy, which
// need more than one rule or two plans (policy_test.go), and the one that needs
// more than a file should hold (plan_too_large_test.go).
var elsewhere = []string{review.AcceptanceExpired, review.AcceptanceUnused, review.PolicyChanged, rules.PlanTooLarge.ID}

// TestCases runs each rule over the plans in testdata/ID, and wants exactly the
// findings that stand beside the lines.
func TestCases(t *testing.T) {
	for _, r := range rules.All() {
		if slices.Contains(elsewhere, r.ID) {
			continue
		}
		t.Run(r.ID, func(t *testing.T) {
			files, err := filepath.Glob(filepath.Join("testdata", r.ID, "*.txtar"))
			if err != nil {
				t.Fatal(err)
			}
			fires, silent := 0, 0
			for _, file := range files {
				t.Run(filepath.Base(file), func(t *testing.T) {
					wants := runCase(t, r, file)
					fires += wants
					if wants == 0 {
						silent++
					}
				})
			}
			if fires == 0 {
				t.Error("there is no case that must be found")
			}
			if silent == 0 {
				t.Error("there is no plan that must stay silent")
			}
		})
	}
}

// runCase runs a rule over one archive and gives how many findings it wanted.
func runCase(t *testing.T, r *review.Rule, file string) int {
	t.Helper()
	archive, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if strings.TrimSpace(string(archive.Comment)) == "" {
		t.Error("the case does not say why it is there")
	}
	files, wants := unpack(t, archive)
	compare(t, wants, findings(t, r, files))
	return len(wants)
}

// A want is a finding that must be there.
type want struct {
	place string // file:line, file:line:column, or the file as a whole
	rule  string
	what  *regexp.Regexp
}

var wantPattern = regexp.MustCompile(`([a-z][a-z0-9-]*) "((?:[^"\\]|\\.)*)"`)

// unpack gives the files of a case and the findings that its comments want.
// Tables have no comments: their wants stand in a file want, with file:line:column.
func unpack(t *testing.T, archive *txtar.Archive) (map[string]string, []want) {
	t.Helper()
	files := make(map[string]string)
	var wants []want
	for _, f := range archive.Files {
		text := string(f.Data)
		if f.Name != "want" {
			files[f.Name] = text
		}
		for i, line := range strings.Split(text, "\n") {
			place := fmt.Sprintf("%s:%d", f.Name, i+1)
			rest := line
			if f.Name == "want" {
				place, rest, _ = strings.Cut(line, " ")
			} else if _, after, ok := strings.Cut(line, "# want "); ok {
				rest = after
			} else {
				continue
			}
			if rest != "" && !wantPattern.MatchString(rest) {
				t.Errorf("%s: this wants nothing that can be understood: %s", place, rest)
			}
			for _, m := range wantPattern.FindAllStringSubmatch(rest, -1) {
				wants = append(wants, want{place, m[1], regexp.MustCompile(m[2])})
			}
		}
	}
	if files["plan.yaml"] == "" {
		files["plan.yaml"] = header
	}
	return files, wants
}

// compare matches findings with wants; both a missing and a surplus one fail.
func compare(t *testing.T, wants []want, got []review.Finding) {
	t.Helper()
	left := slices.Clone(wants)
	for _, f := range got {
		if f.What == "" || f.At.IsZero() || f.At.Line == 0 && f.Rule != plan.FileRefused {
			t.Errorf("a finding without words or place: %+v", f)
		}
		i := slices.IndexFunc(left, func(w want) bool {
			place := fmt.Sprintf("%s:%d", f.At.File, f.At.Line)
			return w.rule == f.Rule && (w.place == place || w.place == f.At.String()) && w.what.MatchString(f.What)
		})
		if i < 0 {
			t.Errorf("not wanted: %s: %s: %s", f.At, f.Rule, f.What)
			continue
		}
		left = slices.Delete(left, i, i+1)
	}
	for _, w := range left {
		t.Errorf("not found: %s: %s %q", w.place, w.rule, w.what)
	}
}
