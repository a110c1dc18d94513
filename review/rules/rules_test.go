package rules_test

import (
	"context"
	"fmt"

	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rules"
)

// today is the day on which the tests judge.
var today = plan.Date{Year: 2026, Month: 11, Day: 25}

// header is what an example on a page leaves out.
const header = "plan: Example\nedition: 2026\nregion: US\nlicense: technician\n"

func load(t *testing.T, files map[string]string) *plan.Expansion {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	p, err := plan.Load(context.Background(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Expand(p)
}

// findings runs one rule and gives what it found; loading counts as a rule too.
func findings(t *testing.T, r *review.Rule, files map[string]string) []review.Finding {
	t.Helper()
	v, err := review.Check(context.Background(), []*review.Rule{r}, load(t, files), today)
	if err != nil {
		t.Fatal(err)
	}
	return v.Findings
}

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
			fails := findings(t, r, example(page.Fails))
			if !slices.ContainsFunc(fails, func(f review.Finding) bool { return f.Rule == r.ID }) {
				t.Errorf("the example that should fail does not: %v", fails)
			}
			for _, f := range fails {
				if f.Rule != r.ID {
					t.Errorf("the example that should fail has another fault: %s %s", f.Rule, f.What)
				}
			}
			if passes := findings(t, r, example(page.Passes)); len(passes) > 0 {
				t.Errorf("the example that should pass does not: %v", passes)
			}
		})
	}
}

// example puts the text of a page into a plan: below a header, unless it has one.
func example(text string) map[string]string {
	if strings.HasPrefix(text, "plan:") {
		return map[string]string{"plan.yaml": text}
	}
	return map[string]string{"plan.yaml": header, "example.yaml": text}
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

// TestCases runs each rule over the plans in testdata/ID, and wants exactly the
// findings that stand beside the lines.
func TestCases(t *testing.T) {
	for _, r := range rules.All() {
		if r.Run == nil {
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
	place string // file:line, or file:line:column
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
