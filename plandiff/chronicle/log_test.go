package chronicle_test

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// told gives the entries of a log as lines: what became of the plan, the subject,
// and the records that were edited.
func told(t testing.TB, r *chronicle.Reader, at chronicle.Span, q chronicle.Query) ([]string, chronicle.Tally) {
	t.Helper()
	var lines []string
	tally, err := r.Log(context.Background(), at, q, func(e *chronicle.Entry) error {
		line := e.Standing.String() + " " + e.Commit.Subject
		if e.Standing == chronicle.Changed || q.Thing != "" {
			var things []string
			for _, c := range e.Causes {
				things = append(things, c.Thing.String())
			}
			line += ": " + strings.Join(things, ", ")
		}
		if e.Moved {
			line += fmt.Sprintf(" (moved from %q)", e.Was)
		}
		if e.Since != nil {
			line += " (not its parent)"
		}
		lines = append(lines, line)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return lines, tally
}

func sameLines(t *testing.T, got []string, want ...string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("got\n\t%s\nwant\n\t%s", strings.Join(got, "\n\t"), strings.Join(want, "\n\t"))
	}
}

func demoHistory(t testing.TB) (*history.Repository, *chronicle.Reader) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "club")
	if err := demo.Write(context.Background(), dir); err != nil {
		t.Fatal(err)
	}
	repo, err := history.Open(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = repo.Close() })
	return repo, chronicle.New(repo, "")
}

// The story of the demo is known: see the messages in its data.
func TestLogOfTheDemo(t *testing.T) {
	repo, r := demoHistory(t)
	lines, tally := told(t, r, span(t, repo, "main"), chronicle.Query{Least: plan.Air})
	sameLines(t, lines,
		"changed Quarry: new tone, new antenna, and one new member: repeater quarry",
		"changed Carry the Wednesday net on Depot too: repeater depot",
		"changed Add the storm group and put it on six repeaters: repeater bluff, repeater grange, repeater mesa, repeater notch, repeater ridge, repeater tower, group storm, receive list ridge-all, channel storm-spotter",
		"changed Retune Mill to 147.120 with tone 123.0: repeater mill",
		"changed Add the Notch repeater: repeater notch",
		"began First plan: what our radios hold, in one place",
	)
	// Raised limits, new members, new labels and a new key are lighter than air.
	if tally.Reformatted != 1 || tally.Lighter != 4 || tally.Looked != 11 || tally.Shown != 6 {
		t.Errorf("the tally is %+v", tally)
	}
}

func TestLogFilters(t *testing.T) {
	repo, r := demoHistory(t)
	tests := []struct {
		name, why string
		span      string
		query     chronicle.Query
		want      []string
	}{
		{"a range", "it begins after its first end", "2026.1..2026.2", chronicle.Query{Least: plan.Layout}, []string{
			"changed Quarry: new tone, new antenna, and one new member: repeater quarry",
			"changed Carry the Wednesday net on Depot too: repeater depot",
			"changed Raise the limits of the pocket radios: radio pocket"}},
		{"a person", "a part of the address is enough, in any case", "main", chronicle.Query{By: "INES@"}, []string{
			"changed Raise the limits of the pocket radios: radio pocket",
			"changed Call the barn repeater Orchard: repeater orchard"}},
		{"a repeater through its rename", "before it was called orchard it was barn", "main", chronicle.Query{Thing: "orchard"}, []string{
			"changed Call the barn repeater Orchard: repeater orchard",
			"began First plan: what our radios hold, in one place: repeater barn"}},
		{"an old name", "barn is followed from where it got another key", "main", chronicle.Query{Thing: "barn"}, []string{
			"changed Call the barn repeater Orchard: repeater orchard",
			"began First plan: what our radios hold, in one place: repeater barn"}},
		{"a talk path", "a retune of its repeater reaches it", "main", chronicle.Query{Thing: "mill/fm"}, []string{
			"changed Retune Mill to 147.120 with tone 123.0: repeater mill",
			"began First plan: what our radios hold, in one place: repeater mill"}},
		{"a talk path through a rename", "barn/fm is orchard/fm", "main", chronicle.Query{Thing: "orchard/fm"}, []string{
			"changed Call the barn repeater Orchard: repeater orchard",
			"began First plan: what our radios hold, in one place: repeater barn"}},
		{"a kind and a key", "the group, and not a zone of that name", "main", chronicle.Query{Thing: "group storm"}, []string{
			"changed Add the storm group and put it on six repeaters: group storm"}},
		{"an operator", "by callsign; two rows have it", "main", chronicle.Query{Thing: "wb0qsp"}, []string{
			"changed Quarry: new tone, new antenna, and one new member: operator 9990042/WB0QSP/Idris Loam"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			lines, _ := told(t, r, span(t, repo, tt.span), tt.query)
			sameLines(t, lines, tt.want...)
		})
	}
}

func TestLogOfNothing(t *testing.T) {
	repo, r := demoHistory(t)
	_, err := r.Log(context.Background(), span(t, repo, "main"), chronicle.Query{Thing: "orchrad"}, nil)
	if err == nil || !strings.Contains(err.Error(), "did you mean orchard?") {
		t.Errorf("the error is %v", err)
	}
}

const head = "plan: Harrow Valley\nedition: 2026\nregion: US\nlicense: technician\n"

func repeater(key, output, more string) string {
	return "repeaters: {" + key + ": {label: Ridge, output: " + output + ", split: +5, fm: {tone: 103.5}" + more + "}}\n"
}

// A plan that is split into files or moved to another folder is the same plan.
func TestLogOfMoves(t *testing.T) {
	s := newStory()
	c := s.commit("begin", map[string]string{"plan.yaml": head + repeater("ridge", "444.325", ""), "README": "ours"})
	c = s.commit("say more", map[string]string{"README": "our plan"}, c)
	c = s.commit("split", map[string]string{"plan.yaml": head, "sites/r.yaml": repeater("ridge", "444.325", "")}, c)
	c = s.commit("retune", map[string]string{"sites/r.yaml": repeater("ridge", "444.350", "")}, c)
	c = s.commit("tidy up", map[string]string{"plan.yaml": "", "sites/r.yaml": "", "radio/plan.yaml": head, "radio/r.yaml": repeater("ridge", "444.350", "")}, c)
	s.commit("rename and narrow", map[string]string{"radio/r.yaml": repeater("hill", "444.350", "")}, c)
	repo, r := s.open(t, "radio")
	lines, tally := told(t, r, span(t, repo, "main"), chronicle.Query{})
	sameLines(t, lines,
		"changed rename and narrow: repeater hill",
		`changed tidy up:  (moved from "")`,
		"changed retune: repeater ridge",
		"began begin")
	if tally.Reformatted != 1 || tally.Looked != 5 {
		t.Errorf("the tally is %+v", tally)
	}
	lines, _ = told(t, r, span(t, repo, "main"), chronicle.Query{Thing: "hill"})
	sameLines(t, lines,
		"changed rename and narrow: repeater hill",
		"changed retune: repeater ridge",
		"began begin: repeater ridge")
}

// A plan that cannot be read is told, and no change is lost over it.
func TestLogOfABrokenPlan(t *testing.T) {
	s := newStory()
	c := s.commit("begin", map[string]string{"plan.yaml": head, "r.yaml": repeater("ridge", "444.325", "")})
	c = s.commit("slip", map[string]string{"r.yaml": repeater("ridge", "44x.350", "")}, c)
	c = s.commit("worse", map[string]string{"r.yaml": "repeaters: ["}, c)
	c = s.commit("mend", map[string]string{"r.yaml": repeater("hill", "444.325", "")}, c)
	c = s.commit("end", map[string]string{"plan.yaml": "", "r.yaml": ""}, c)
	s.commit("again", map[string]string{"plan.yaml": head}, c)
	repo, r := s.open(t, "")
	lines, _ := told(t, r, span(t, repo, "main"), chronicle.Query{})
	sameLines(t, lines, "began again", "ended end",
		"changed mend: repeater hill (not its parent)",
		"broken worse", "broken slip", "began begin")
	lines, _ = told(t, r, span(t, repo, "main~2"), chronicle.Query{Thing: "hill"})
	sameLines(t, lines,
		"changed mend: repeater hill (not its parent)",
		"broken worse: ", "broken slip: ", "began begin: repeater ridge")
}

// A rename on one branch and an edit on the other, and a merge that changes
// something itself; commits that leave the plan alone stand in between.
func TestLogOfBranches(t *testing.T) {
	two := func(key, output, group string) map[string]string {
		return map[string]string{"r.yaml": repeater(key, output, ""), "g.yaml": "groups: {state: {id: " + group + "}}\n"}
	}
	s := newStory()
	base := s.commit("begin", map[string]string{"plan.yaml": head, "r.yaml": repeater("ridge", "444.325", ""), "g.yaml": "groups: {state: {id: 1}}\n"})
	base = s.commit("nothing", map[string]string{"README": "a"}, base)
	left := s.commit("rename", two("hill", "444.325", "1"), base)
	right := s.commit("words", map[string]string{"README": "b"}, base)
	right = s.commit("retune", two("ridge", "444.350", "1"), right)
	right = s.commit("words again", map[string]string{"README": "c"}, right)
	left = s.commit("other words", map[string]string{"OTHER": "d"}, left)
	merged := s.commit("merge", two("hill", "444.350", "2"), left, right)
	s.commit("after", two("hill", "444.375", "2"), merged)
	repo, r := s.open(t, "")
	lines, _ := told(t, r, span(t, repo, "main"), chronicle.Query{})
	sameLines(t, lines,
		"changed after: repeater hill",
		"changed merge: group state", // it has the key of one parent and the frequency of the other
		"changed retune: repeater ridge",
		"changed rename: repeater hill",
		"began begin")
	lines, _ = told(t, r, span(t, repo, "main"), chronicle.Query{Thing: "hill"})
	sameLines(t, lines,
		"changed after: repeater hill",
		"changed retune: repeater ridge",
		"changed rename: repeater hill",
		"began begin: repeater ridge")
}

// A merge of edits to different records of one file differs from both parents in its
// text, and changed nothing itself: each edit is told once, and only once.
func TestLogOfACleanMerge(t *testing.T) {
	groups := func(a, b string) map[string]string {
		return map[string]string{"g.yaml": "groups:\n  a: {id: " + a + "}\n  b: {id: " + b + "}\n"}
	}
	s := newStory()
	base := s.commit("begin", map[string]string{"plan.yaml": head, "g.yaml": groups("1", "2")["g.yaml"]})
	left := s.commit("left", groups("3", "2"), base)
	right := s.commit("right", groups("1", "4"), base)
	s.commit("merge", groups("3", "4"), left, right)
	repo, r := s.open(t, "")
	for _, reach := range []bool{false, true} {
		lines, _ := told(t, r, span(t, repo, "main"), chronicle.Query{Reach: reach})
		sameLines(t, lines, "changed right: group b", "changed left: group a", "began begin")
	}
	lines, _ := told(t, r, span(t, repo, "main"), chronicle.Query{Thing: "a"})
	sameLines(t, lines, "changed left: group a", "began begin: group a")
}

// Every version of a file is parsed once, though commits share them.
func TestFilesAreParsedOnce(t *testing.T) {
	repo, r := demoHistory(t)
	at := span(t, repo, "main")
	versions := make(map[string]bool)
	err := repo.Walk(context.Background(), history.Commit{}, at.To, "", func(_ history.Commit, changes []history.BlobChange) error {
		for _, c := range changes {
			if plan.MayMatter(c.Path) {
				versions[c.Path+c.New.Hash] = true
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	told(t, r, at, chronicle.Query{Reach: true})
	told(t, r, at, chronicle.Query{Thing: "mill"})
	if r.Parsed() != len(versions) {
		t.Errorf("%d files were parsed, and there are %d versions of files", r.Parsed(), len(versions))
	}
}

func TestProgressIsTold(t *testing.T) {
	repo, r := demoHistory(t)
	var last chronicle.Progress
	calls := 0
	r.Progress = func(p chronicle.Progress) { last, calls = p, calls+1 }
	told(t, r, span(t, repo, "main"), chronicle.Query{})
	if calls != 11 || last.Commits != 11 || last.Back.Format("2006-01-02") != "2025-09-14" {
		t.Errorf("%d calls, the last of %+v", calls, last)
	}
}
