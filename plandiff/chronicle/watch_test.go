package chronicle_test

import (
	"context"
	"fmt"
	"path/filepath"
	"reflect"
	"testing"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// A commit that a trace passes changes nothing of what it tells, whatever branches there
// are, and whichever plans cannot be read.
func TestTracePassesWhatDoesNotMatter(t *testing.T) {
	n := 0
	rapid.Check(t, func(rt *rapid.T) {
		n++
		dir := filepath.Join(t.TempDir(), fmt.Sprint(n))
		drawBranches(rt).write(rt, dir)
		repo, err := history.Open(context.Background(), dir)
		if err != nil {
			rt.Fatal(err)
		}
		defer repo.Close()
		at := span(rt, repo, "main").To
		files, err := repo.Tree(context.Background(), at, "")
		if err != nil {
			rt.Fatal(err)
		}
		x := expandFS(rt, files)
		var names []string
		for _, c := range x.Channels {
			names = append(names, c.Name)
		}
		for _, s := range plan.Sections() {
			for _, r := range s.All(x.Plan) {
				if s.HasOwnKeys() {
					names = append(names, r.Thing().String())
				}
			}
		}
		for _, name := range names {
			want, errWant := chronicle.New(repo, "").TraceUnwatched(context.Background(), at, x, name)
			got, errGot := chronicle.New(repo, "").Trace(context.Background(), at, x, name)
			if !reflect.DeepEqual(errGot, errWant) || !reflect.DeepEqual(got, want) {
				rt.Fatalf("%s: passing what does not matter the trace tells\n%s\nand else\n%s\n%v %v", name, sayings(got), sayings(want), errGot, errWant)
			}
		}
	})
}

// sayings writes what traces tell, for a person who looks for a difference.
func sayings(traces []*chronicle.Trace) (text string) {
	for _, tr := range traces {
		for _, a := range tr.Attributes {
			subject := "nobody"
			if a.Origin.Commit != nil {
				subject = a.Origin.Commit.Subject
			}
			text += fmt.Sprintln(tr.Thing, a.Name, a.Value, "by", subject, a.Origin.Op, a.Origin.Was, a.Origin.As)
		}
	}
	return text
}

// drawBranches draws a history with branches and merges of a plan in three files, in which
// one file at a time may be spoiled and mended again.
func drawBranches(t *rapid.T) *story {
	s := newStory()
	plans := []*plan.Plan{nil, plantest.Plan(t)}
	s.commit("begin", inFiles(t, plans[1], 3))
	commits := rapid.IntRange(2, 12).Draw(t, "commits")
	for i := 2; i <= commits; i++ {
		parents := []int{i - 1 - rapid.SampledFrom([]int{0, 0, 0, 1, 2}).Draw(t, "steps back")}
		if parents[0] = max(parents[0], 1); i > 3 && rapid.IntRange(0, 3).Draw(t, "merge") == 0 {
			if other := rapid.IntRange(max(1, i-4), i-1).Draw(t, "with"); other != parents[0] {
				parents = append(parents, other)
			}
		}
		p := plans[rapid.SampledFrom(parents).Draw(t, "plan of")]
		if rapid.IntRange(0, 3).Draw(t, "edit") > 0 {
			p = plantest.Edit(t, p)
		}
		files := inFiles(t, p, 3)
		for name := range s.files[parents[0]] {
			if files[name] == "" {
				files[name] = ""
			}
		}
		if i < commits && rapid.IntRange(0, 3).Draw(t, "spoiled") == 0 {
			files["spoiled.yaml"] = "groups: [\n"
		}
		plans = append(plans, p)
		s.commit(fmt.Sprintf("commit %d", i), files, parents...)
	}
	return s
}
