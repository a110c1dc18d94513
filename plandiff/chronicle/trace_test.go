package chronicle_test

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// traced gives "attribute value < was: subject" for each attribute of a thing.
func traced(t testing.TB, repo *history.Repository, r *chronicle.Reader, name string) []string {
	t.Helper()
	at := span(t, repo, "main")
	x, err := r.At(context.Background(), at.To)
	if err != nil {
		t.Fatal(err)
	}
	traces, err := r.Trace(context.Background(), at.To, x, name)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, tr := range traces {
		for _, a := range tr.Attributes {
			subject := "not recorded"
			switch o := a.Origin; {
			case o.Hidden:
				subject = "hidden"
			case o.Commit != nil:
				subject = o.Commit.Subject
			}
			lines = append(lines, fmt.Sprintf("%s %s < %s: %s", a.Name, strings.Join(a.Value, " "), strings.Join(a.Origin.Was, " "), subject))
		}
	}
	return lines
}

func has(t *testing.T, lines []string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !slices.Contains(lines, w) {
			t.Errorf("there is no line %q in\n\t%s", w, strings.Join(lines, "\n\t"))
		}
	}
}

// The demo's own story tells where things come from: see the messages in its data.
func TestTraceOfTheDemo(t *testing.T) {
	repo, r := demoHistory(t)
	const first = "First plan: what our radios hold, in one place"
	has(t, traced(t, repo, r, "orchard"),
		"key orchard < barn: Call the barn repeater Orchard",
		"label Orch < Barn: Call the barn repeater Orchard",
		"output 145.310 < : "+first)
	has(t, traced(t, repo, r, "mill"),
		"output 147.120 < 147.165: Retune Mill to 147.120 with tone 123.0",
		"input 147.720 < 147.765: Retune Mill to 147.120 with tone 123.0",
		"fm.tone.send 123.0 < 100.0: Retune Mill to 147.120 with tone 123.0")
	has(t, traced(t, repo, r, "orchard/fm"),
		"key orchard/fm < barn/fm: Call the barn repeater Orchard",
		"label Orch FM < Barn FM: Call the barn repeater Orchard",
		"receive 145.310 < : "+first)
	// The path is new with the storm group, its frequency is as old as the repeater.
	has(t, traced(t, repo, r, "ridge/2/storm"),
		"key ridge/2/storm < : Add the storm group and put it on six repeaters",
		"group 999555 < : Add the storm group and put it on six repeaters",
		"receive 444.325 < : "+first)
	has(t, traced(t, repo, r, "zone simplex"),
		"channels calling-2m < 9: Put the calling channels first and shorten labels",
		"channels space < : "+first)
}

// Each attribute is followed to the parent that has the same, whichever that is.
func TestTraceThroughAMerge(t *testing.T) {
	s := newStory()
	base := s.commit("begin", map[string]string{"plan.yaml": head, "r.yaml": repeater("ridge", "444.325", "")})
	left := s.commit("rename", map[string]string{"r.yaml": repeater("hill", "444.325", "")}, base)
	right := s.commit("retune", map[string]string{"r.yaml": repeater("ridge", "444.350", "")}, base)
	right = s.commit("words", map[string]string{"README": "x"}, right)
	merged := s.commit("merge", map[string]string{"r.yaml": repeater("hill", "444.350", ", note: ours")}, left, right)
	s.commit("words", map[string]string{"README": "y"}, merged)
	repo, r := s.open(t, "")
	has(t, traced(t, repo, r, "hill"),
		"key hill < ridge: rename",
		"output 444.350 < 444.325: retune",
		"fm.tone.send 103.5 < : begin",
		"note ours < : merge")
	has(t, traced(t, repo, r, "hill/fm"),
		"key hill/fm < ridge/fm: rename",
		"receive 444.350 < 444.325: retune",
		"tone sent 103.5 < : begin")
}

// A commit is reached by way of all branches, also where one of them, which nothing is followed
// on, comes there first, past commits that changed nothing of the plan.
func TestTraceByTheLaterWay(t *testing.T) {
	s := newStory()
	base := s.commit("begin", map[string]string{"club/plan.yaml": head})
	ridge := s.commit("ridge", map[string]string{"club/r.yaml": repeater("ridge", "444.325", "")}, base)
	left := s.commit("words", map[string]string{"README": "x"}, ridge)
	left = s.commit("elsewhere", map[string]string{"club/g.yaml": "groups: {town: {id: 5}}"}, left)
	right := s.commit("more words", map[string]string{"README": "y"}, ridge)
	s.commit("merge", map[string]string{"club/g.yaml": "groups: {town: {id: 6}}"}, left, right)
	repo, r := s.open(t, "club")
	has(t, traced(t, repo, r, "ridge"), "key ridge < : ridge", "output 444.325 < : ridge")
}

// A record that moved to another file, or with its plan to another folder, and
// one that passed through a time when the plan could not be read.
func TestTraceThroughMoves(t *testing.T) {
	s := newStory()
	c := s.commit("begin", map[string]string{"plan.yaml": head + repeater("ridge", "444.325", "")})
	c = s.commit("split", map[string]string{"plan.yaml": head, "r.yaml": repeater("ridge", "444.325", "")}, c)
	c = s.commit("retune", map[string]string{"r.yaml": repeater("ridge", "444.350", "")}, c)
	c = s.commit("slip", map[string]string{"g.yaml": "groups: ["}, c)
	c = s.commit("mend", map[string]string{"g.yaml": "groups: {}"}, c)
	s.commit("move", map[string]string{"plan.yaml": "", "r.yaml": "", "g.yaml": "", "club/plan.yaml": head, "club/r.yaml": repeater("ridge", "444.350", "")}, c)
	repo, r := s.open(t, "club")
	has(t, traced(t, repo, r, "ridge"), "key ridge < : begin", "output 444.350 < 444.325: retune", "label Ridge < : begin")
}

func TestTraceOfNothing(t *testing.T) {
	repo, r := demoHistory(t)
	at := span(t, repo, "main")
	x, err := r.At(context.Background(), at.To)
	if err != nil {
		t.Fatal(err)
	}
	_, err = r.Trace(context.Background(), at.To, x, "mil")
	if !errors.Is(err, chronicle.ErrNoThing) || !strings.Contains(err.Error(), "did you mean mill?") {
		t.Errorf("the error is %v", err)
	}
}

// The output is the same whatever the repository is read with.
func TestBothBackingsTellTheSame(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Fatal("this test needs git to compare with")
	}
	tell := func() string {
		repo, r := demoHistory(t)
		var all []string
		for _, q := range []chronicle.Query{{}, {Reach: true}, {Thing: "orchard"}, {Thing: "ridge/2/storm"}} {
			lines, tally := told(t, r, span(t, repo, "main"), q)
			all = append(append(all, lines...), fmt.Sprint(tally))
		}
		for _, thing := range []string{"orchard", "mill/fm", "zone simplex"} {
			all = append(all, traced(t, repo, r, thing)...)
		}
		releases, err := chronicle.Releases(context.Background(), repo, "")
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(append(all, releases.FromName, releases.ToName, repo.Backing()), "\n")
	}
	withGit := tell()
	t.Setenv("PATH", "")
	without := tell()
	if a, b := strings.CutSuffix(withGit, "\ngit"); !b || a+"\ngo-git" != without {
		t.Errorf("with git\n%s\nand without\n%s", withGit, without)
	}
}

func TestReleases(t *testing.T) {
	s := newStory()
	c := s.commit("begin", map[string]string{"plan.yaml": head})
	first := c
	c = s.commit("two", map[string]string{"plan.yaml": head + "note: x\n"}, c)
	second := c
	side := s.commit("aside", map[string]string{"plan.yaml": head + "note: y\n"}, first)
	s.commit("merge", map[string]string{"plan.yaml": head + "note: xy\n"}, second, side)
	s.tag("v1", first)
	s.tag("v2", second)
	s.tag("aside", side)
	repo, _ := s.open(t, "")
	tests := []struct{ name, why, text, from, to string }{
		{"nothing", "the newest release that led here", "", "aside", "HEAD"},
		{"a tag", "aside is newer, but did not lead to it", "v2", "v1", "v2"},
		{"a tag on a branch", "nor did the second lead to aside", "aside", "v1", "aside"},
		{"a range", "both ends are as they are named", "v1..main", "v1", "main"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := chronicle.Releases(context.Background(), repo, tt.text)
			if err != nil || got.FromName != tt.from || got.ToName != tt.to {
				t.Errorf("%s: from %q to %q, %v", tt.why, got.FromName, got.ToName, err)
			}
		})
	}
	if _, err := chronicle.Releases(context.Background(), repo, "v1"); !errors.Is(err, chronicle.ErrNoRelease) {
		t.Errorf("nothing led to the first release, and the error is %v", err)
	}
}

// TestTraceOverAHeadThatCannotBeRead edits on top of a commit whose plan has a
// slip: what differs from the last plan that could be read is not recorded yet, and
// no commit is blamed for it.
func TestTraceOverAHeadThatCannotBeRead(t *testing.T) {
	const sound = head + "repeaters: {ridge: {output: 146.940, split: -0.6, fm: {}}}\n"
	s := newStory()
	c := s.commit("begin", map[string]string{"plan.yaml": sound})
	s.commit("slip", map[string]string{"plan.yaml": strings.Replace(sound, "split: ", "split ", 1)}, c)
	repo, r := s.open(t, "")
	p, err := plan.Load(context.Background(), fstest.MapFS{"plan.yaml": {Data: []byte(strings.Replace(sound, "-0.6", "+0.6", 1))}})
	if err != nil {
		t.Fatal(err)
	}
	traces, err := r.Trace(context.Background(), span(t, repo, "main").To, plan.Expand(p), "repeater ridge")
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range traces[0].Attributes {
		switch {
		case a.Name == "input" && (a.Origin.Commit != nil || a.Origin.Hidden || !slices.Equal(a.Origin.Was, []string{"146.340"})):
			t.Errorf("the input comes from %+v", a.Origin)
		case a.Name == "output" && (a.Origin.Commit == nil || a.Origin.Commit.Subject != "begin"):
			t.Errorf("the output comes from %+v", a.Origin)
		}
	}
}
