package report

import (
	"context"
	"flag"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"golang.org/x/tools/txtar"
	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

var update = flag.Bool("update", false, "rewrite the golden outputs")

// expand loads one of the plans of testdata/pair.txtar.
func expand(t testing.TB, name string) *plan.Expansion {
	t.Helper()
	archive, err := txtar.ParseFile(filepath.Join("testdata", "pair.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	all := fstest.MapFS{}
	for _, f := range archive.Files {
		all[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	files, err := fs.Sub(all, name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Load(context.Background(), files)
	if err != nil || len(p.Problems) > 0 {
		t.Fatal(err, p.Problems)
	}
	return plan.Expand(p)
}

// today is when the tests judge.
var today = plan.Date{Year: 2026, Month: 3, Day: 1}

// testRules are two rules of our own, so that no golden output changes with the
// rules of the program.
func testRules() []*review.Rule {
	return []*review.Rule{
		{ID: "no-callsign", Severity: review.Warn, Doc: testPage("no-callsign"), Run: func(p *review.Pass) {
			for _, r := range p.Plan.Repeaters.All() {
				if !r.Callsign.IsSet() {
					p.Report(review.Finding{At: r.Place(), About: []plan.Thing{r.Thing()}, What: "repeater " + r.Key.V + " does not say its callsign",
						Why: "members cannot know whom they hear", Fix: "add callsign:", Source: "47 CFR 97.119(a)"})
				}
			}
		}},
		{ID: "odd-output", Severity: review.Block, Edition: 2026, Doc: testPage("odd-output"), Run: func(p *review.Pass) {
			for _, r := range p.Plan.Repeaters.All() {
				if r.Output.V.String() == "444.350" {
					p.Report(review.Finding{At: r.Output.At, About: []plan.Thing{r.Thing()}, Values: []string{"444.350"}, What: "444.350 MHz is not what was coordinated",
						Also: []review.Related{{At: r.Place(), Text: "the repeater"}, {Text: "the letter says 444.325"}}})
				}
			}
		}},
	}
}

func testPage(id string) string {
	return "# " + id + "\n\nA rule of the tests.\n\n## What is wrong\n\nIt is `wrong`.\n\n## Why it matters\n\n- one point\n- another\n\n" +
		"## What to do\n\nMend it.\n\n## What it rests on\n\nNothing.\n\n## Fails\n\n```yaml\na: b\n```\n\n## Passes\n\n```yaml\na: c\n```\n"
}

// reviewed is the change from old to new, judged.
func reviewed(t testing.TB) *Document {
	t.Helper()
	c := plandiff.Compare(expand(t, "old"), expand(t, "new"))
	v, err := review.Judge(context.Background(), testRules(), c, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	return &Document{
		Old:        &Origin{Name: "b6a33d1f6e", Hash: "b6a33d1f6e0000000000000000000000000000aa", Subject: "First plan", Note: "where evening left main", Folder: "plans/fern"},
		New:        &Origin{Name: "evening", Hash: "d2310974650000000000000000000000000000bb", Subject: "An evening's work", Folder: "plans/fern"},
		Comparison: c, Verdict: v, Expansion: c.New,
	}
}

// checked is the new plan alone, judged by its own policy.
func checked(t testing.TB) *Document {
	t.Helper()
	x := expand(t, "new")
	v, err := review.Check(context.Background(), testRules(), x, today)
	if err != nil {
		t.Fatal(err)
	}
	return &Document{New: &Origin{Name: history.WorkTreeName, Folder: "../fern"}, Verdict: v, Expansion: x}
}

// unfolded is the change with every effect.
func unfoldedDiff(t testing.TB) *Document {
	d := reviewed(t)
	d.Verdict, d.Unfold = nil, true
	return d
}

// forms are all outputs that have a golden file.
func forms(t testing.TB) map[string]func(io.Writer) error {
	check, diff, rev := checked(t), unfoldedDiff(t), reviewed(t)
	page := func(p *Page, err error) *Page {
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	all := map[string]func(io.Writer) error{
		"check.json":   func(w io.Writer) error { return JSON(w, check) },
		"diff.json":    func(w io.Writer) error { return JSON(w, diff) },
		"review.json":  func(w io.Writer) error { return JSON(w, rev) },
		"radios.json":  func(w io.Writer) error { return RadiosJSON(w, check) },
		"show.json":    func(w io.Writer) error { return ShowJSON(w, check, "ridge/1/statewide") },
		"explain.json": func(w io.Writer) error { return ExplainJSON(w, testRules()[0]) },
		"rules.json":   func(w io.Writer) error { return RulesJSON(w, testRules()) },
	}
	for name, p := range map[string]*Page{
		"check": Check(check), "diff": Diff(diff), "review": Review(rev), "radios": Radios(check),
		"show": page(Show(check, "knob")), "explain": page(Explain(testRules()[0])), "rules": page(Rules(testRules())),
	} {
		all[name+"-80.txt"] = func(w io.Writer) error { return Text(w, p, Terminal{}) }
		all[name+"-40.txt"] = func(w io.Writer) error { return Text(w, p, Terminal{Width: 40}) }
		all[name+".md"] = func(w io.Writer) error { return Markdown(w, p) }
	}
	return all
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != string(got) {
		t.Errorf("%s differs; look at it, and run with -update where it is right:\n%s", name, got)
	}
}
