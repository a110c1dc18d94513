package chronicle_test

import (
	"context"
	"fmt"
	"io/fs"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// A drawn history is one branch of edits of a random plan, whose records stand in
// several files; some commits change the text alone.
type drawnHistory struct {
	repo  *history.Repository
	plans []*plan.Plan // after each commit, oldest first
	at    chronicle.Span
	r     *chronicle.Reader
}

func drawHistory(t *rapid.T, dir string) *drawnHistory {
	s := newStory()
	s.Authors = []string{"Pat Example <pat@example.org>", "Sam Example <sam@example.org>"}
	h := &drawnHistory{}
	p := plantest.Plan(t)
	last := 0
	for i := range rapid.IntRange(2, 7).Draw(t, "commits") {
		if i > 0 && rapid.IntRange(0, 4).Draw(t, "edits") > 0 {
			p = plantest.Edit(t, p)
		}
		var parents []int
		if i > 0 {
			parents = []int{last}
		}
		files := inFiles(t, p, rapid.IntRange(1, 3).Draw(t, "spread"))
		for name := range s.files[last] {
			if files[name] == "" {
				files[name] = ""
			}
		}
		last = s.commit(fmt.Sprintf("commit %d", i), files, parents...)
		h.plans = append(h.plans, p)
	}
	s.write(t, dir)
	var err error
	if h.repo, err = history.Open(context.Background(), dir); err != nil {
		t.Fatal(err)
	}
	h.at = span(t, h.repo, "main")
	h.r = chronicle.New(h.repo, "")
	return h
}

// inFiles writes a plan into several files: the records of a kind stand together,
// and how the kinds are spread changes with n.
func inFiles(t *rapid.T, p *plan.Plan, n int) map[string]string {
	parts := make([]*plan.Plan, n)
	for i := range parts {
		parts[i] = new(plan.Plan)
	}
	for i, s := range plan.Sections() {
		for _, r := range s.All(p) {
			if err := parts[i%n].Add(plan.Clone(r)); err != nil {
				t.Fatal(err)
			}
		}
	}
	files := make(map[string]string)
	for i, part := range parts {
		written, err := plan.Files(part)
		if err != nil {
			t.Fatal(err)
		}
		for name, data := range written {
			if s := plan.TableOf(name); i > 0 && (s == nil || !s.WholeRows()) {
				name = fmt.Sprintf("part-%d/%s", i, strings.Replace(name, plan.RootFile, "more.yaml", 1))
			}
			files[name] = string(data)
		}
	}
	return files
}

// TestHistories holds log and trace against generated histories.
func TestHistories(t *testing.T) {
	n := 0
	rapid.Check(t, func(rt *rapid.T) {
		n++
		h := drawHistory(rt, filepath.Join(t.TempDir(), fmt.Sprint(n)))
		defer h.repo.Close()
		composes(rt, h)
		traces(rt, h)
	})
}

// composes: the changes of all entries, from the first to the last, make the newest
// plan of no plan at all; no commit is missing; and the changes are the same whether
// what they reach is asked for or not.
func composes(t *rapid.T, h *drawnHistory) {
	var brief [][]plandiff.Change
	for _, reach := range []bool{false, true} {
		var steps [][]plandiff.Change
		tally, err := h.r.Log(context.Background(), h.at, chronicle.Query{Reach: reach}, func(e *chronicle.Entry) error {
			steps = append(steps, e.Comparison.Changes)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if brief == nil {
			brief = steps
		}
		if !reflect.DeepEqual(brief, steps) {
			t.Fatalf("with what changes reach, other changes are told\n%+v\nand without\n%+v", steps, brief)
		}
		if tally.Shown+tally.Reformatted != tally.Looked {
			t.Fatalf("commits are missing: %+v", tally)
		}
		now := new(plan.Plan)
		for _, changes := range slices.Backward(steps) {
			if now, err = plandiff.Apply(now, changes); err != nil {
				t.Fatal(err)
			}
		}
		if diff := plantest.Equal(now, h.plans[len(h.plans)-1]); diff != "" {
			t.Fatalf("the entries lead to another plan: %s", diff)
		}
	}
}

// traces: for every field of every record, the commit of its trace is the newest
// one in which the field differs from the plan before.
func traces(t *rapid.T, h *drawnHistory) {
	var commits []history.Commit
	err := h.repo.Walk(context.Background(), history.Commit{}, h.at.To, "", func(c history.Commit, _ []history.BlobChange) error {
		commits = append(commits, c)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	traceAll(t, h.repo, h.r, commits)
}

func TestTraceOfTheDemoAgainstBruteForce(t *testing.T) {
	repo, r := demoHistory(t)
	at := span(t, repo, "main")
	commits := []history.Commit{at.To}
	for c := at.To; len(c.Parents) > 0; commits = append(commits, c) {
		var err error
		if c, err = repo.Commit(context.Background(), c.Parents[0]); err != nil {
			t.Fatal(err)
		}
	}
	traceAll(t, repo, r, commits)
}

// traceAll traces every record of the newest commit; commits stand newest first.
func traceAll(t interface{ Fatalf(string, ...any) }, repo *history.Repository, r *chronicle.Reader, commits []history.Commit) {
	var all []*plan.Expansion
	for _, c := range commits {
		files, err := repo.Tree(context.Background(), c, "")
		if err != nil {
			t.Fatalf("%v", err)
		}
		all = append(all, expandFS(t, files))
	}
	for _, s := range plan.Sections() {
		if !s.HasOwnKeys() || s.Kind == plan.KindSeverity || s.Kind == plan.KindChannel {
			continue
		}
		for _, rec := range s.All(all[0].Plan) {
			traces, err := r.Trace(context.Background(), commits[0], all[0], rec.Thing().String())
			if err != nil || len(traces) != 1 {
				t.Fatalf("%s: %d traces, %v", rec.Thing(), len(traces), err)
			}
			for _, a := range traces[0].Attributes {
				if a.Item {
					continue
				}
				want := commits[bruteForce(all, rec.Thing(), a.Name)]
				if a.Origin.Commit == nil || a.Origin.Commit.Hash != want.Hash {
					t.Fatalf("%s: %s was last changed by %v, want %s", rec.Thing(), a.Name, a.Origin.Commit, want.Subject)
				}
			}
		}
	}
}

func expandFS(t interface{ Fatalf(string, ...any) }, files fs.FS) *plan.Expansion {
	p, err := plan.Load(context.Background(), files)
	if err != nil || len(p.Problems) > 0 {
		t.Fatalf("%v %v", err, p.Problems)
	}
	return plan.Expand(p)
}

// bruteForce gives the place of the newest plan in which the field of a thing
// differs from the plan before. It looks at every pair of plans, and knows of history
// only what Compare calls a rename.
func bruteForce(all []*plan.Expansion, thing plan.Thing, field string) int {
	for i := 0; i+1 < len(all); i++ {
		c := plandiff.Compare(all[i+1], all[i])
		was := thing
		for old, now := range c.Renames {
			if old.Kind == thing.Kind && now == thing.Key {
				was = old
			}
		}
		now, _ := all[i].Plan.Find(thing)
		before, ok := all[i+1].Plan.Find(was)
		renamedAway := was == thing && c.Renames.Key(thing.Kind, thing.Key) != thing.Key
		switch {
		case !ok || renamedAway:
			return i
		case field == chronicle.KeyAttribute && was != thing:
			return i
		case field != chronicle.KeyAttribute && differs(c, thing.Kind, field, before, now):
			return i
		}
		thing = was
	}
	return len(all) - 1
}

func differs(c *plandiff.Comparison, kind plan.Kind, field string, before, now plan.Record) bool {
	f := plan.SectionOf(kind).Field(field)
	x, y := f.Texts(before, c.Renames), f.Texts(now, nil)
	if f.Ref == plan.NoRef {
		return !f.Same(before, now)
	}
	if f.Form == plan.Set {
		slices.Sort(x)
		slices.Sort(y)
	}
	return !slices.Equal(x, y)
}
