package history

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestPair compares what a person names, from where it parted.
func TestPair(t *testing.T) {
	f := newFixture(t)
	base := f.commit("Base", "plan.yaml", named("base"))
	f.git("checkout", "-q", "-b", "feature")
	f.commit("Feature", "plan.yaml", named("feature"))
	f.git("checkout", "-q", "main")
	f.commit("Main", "plan.yaml", named("main"))
	f.git("checkout", "-q", "--orphan", "apart")
	f.commit("Apart", "plan.yaml", named("apart"))
	f.git("checkout", "-q", "main")
	f.write("plan.yaml", named("edited"))
	other := filepath.Join(tempDir(t), "other")
	if err := os.CopyFS(other, os.DirFS(f.dir)); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(other, ".git")); err != nil {
		t.Fatal(err)
	}
	f.git("worktree", "add", "-q", f.dir+"-linked", "feature")
	short := base[:10]
	t.Chdir(f.dir)
	for _, c := range []struct {
		name, names string
		tips        bool
		old, new    string // name: plan
		note, why   string
	}{
		{"nothing", "", false, "HEAD: main", "work tree: edited", "", "the last commit with what is being edited"},
		{"the branch that is checked out", "main", false, "main: main", "work tree: edited", "", "it has not parted from itself"},
		{"another branch", "feature", false, short + ": base", "work tree: edited", "where HEAD left feature", "what is being edited parted where HEAD did"},
		{"two branches", "main feature", false, short + ": base", "feature: feature", "where feature left main", "nobody is blamed for what main did since"},
		{"the other way", "feature main", false, short + ": base", "main: main", "where main left feature", "the same from the other end"},
		{"tips", "main feature", true, "main: main", "feature: feature", "", "as they stand"},
		{"an ancestor", "main~1 main", false, "main~1: base", "main: main", "", "it is where they parted"},
		{"nothing in common", "main apart", false, "main: main", "apart: apart", "which has no history in common with apart", "there is no other way"},
		{"a revision and this folder", "feature .", false, short + ": base", ".: edited", "where HEAD left feature", "it is what is being edited"},
		{"a revision and a folder elsewhere", "feature " + other, false, "feature: feature", other + ": edited", "", "it has no history to part from"},
		{"a folder and a revision", other + " feature", false, other + ": edited", "feature: feature", "", "so it has not"},
		{"a linked work tree as a folder", "main " + f.dir + "-linked", false, "main: main", f.dir + "-linked: feature", "", "its HEAD is not ours"},
	} {
		t.Run(c.name, func(t *testing.T) {
			old, new, err := sidesIn(t, ".").Pair(context.Background(), strings.Fields(c.names), c.tips)
			if err != nil {
				t.Fatal(err)
			}
			if got := old.Name + ": " + says(t, old); got != c.old {
				t.Errorf("old is %s, want %s: %s", got, c.old, c.why)
			}
			if got := new.Name + ": " + says(t, new); got != c.new {
				t.Errorf("new is %s, want %s: %s", got, c.new, c.why)
			}
			if old.Note != c.note {
				t.Errorf("the note is %q, want %q: %s", old.Note, c.note, c.why)
			}
		})
	}
}

// TestPairInWorktree stands in a linked work tree, whose HEAD is its own.
func TestPairInWorktree(t *testing.T) {
	f := newFixture(t)
	f.commit("Base", "plans/plan.yaml", named("base"))
	f.commit("Main", "plans/plan.yaml", named("main"))
	linked := f.at(f.dir + "-linked")
	f.git("worktree", "add", "-q", "-b", "feature", linked.dir, "main~1")
	linked.commit("Feature", "plans/plan.yaml", named("feature"))
	linked.write("plans/plan.yaml", named("edited"))
	s := sidesIn(t, filepath.Join(linked.dir, "plans"))
	old, new, err := s.Pair(context.Background(), nil, false)
	if err != nil || says(t, old) != "feature" || says(t, new) != "edited" {
		t.Errorf("%v %+v %+v", err, old, new)
	}
	if old, _, err = s.Pair(context.Background(), []string{"main"}, false); err != nil || says(t, old) != "base" {
		t.Errorf("%v %+v", err, old)
	}
}

// TestPairUnborn compares where the branch that is checked out has no commit.
func TestPairUnborn(t *testing.T) {
	f := newFixture(t)
	f.write("plan.yaml", named("edited"))
	if _, _, err := sidesIn(t, f.dir).Pair(context.Background(), nil, false); !errors.Is(err, ErrUnborn) {
		t.Errorf("there is no HEAD, and the error is %v", err)
	}
	f.commit("One", "plan.yaml", named("one"))
	f.git("checkout", "-q", "--orphan", "fresh")
	f.write("plan.yaml", named("edited"))
	old, new, err := sidesIn(t, f.dir).Pair(context.Background(), []string{"main"}, false)
	if err != nil || says(t, old) != "one" || says(t, new) != "edited" {
		t.Errorf("%v %+v %+v", err, old, new)
	}
}

// TestPairShallow says what to do where the place of parting was not fetched.
func TestPairShallow(t *testing.T) {
	f := newFixture(t)
	f.commit("Base", "plan.yaml", named("base"))
	f.git("branch", "feature")
	f.commit("Main", "plan.yaml", named("main"))
	f.git("checkout", "-q", "feature")
	f.commit("Feature", "plan.yaml", named("feature"))
	f.git("clone", "-q", "--depth=1", "--no-single-branch", "file://"+f.dir, f.dir+"-2")
	s := sidesIn(t, f.dir+"-2")
	_, _, err := s.Pair(context.Background(), []string{"origin/main", "origin/feature"}, false)
	if !errors.Is(err, ErrShallow) || !strings.Contains(err.Error(), "git fetch --unshallow") {
		t.Errorf("the error is %v", err)
	}
	if _, _, err := s.Pair(context.Background(), []string{"origin/main", "origin/feature"}, true); err != nil {
		t.Errorf("the tips are there, and the error is %v", err)
	}
}

// TestSideString names sides in a sentence.
func TestSideString(t *testing.T) {
	c := &Commit{Hash: "d0134a9282aaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"}
	for want, side := range map[string]Side{
		"the work tree": {Name: WorkTreeName}, "the folder ../other": {Name: "../other"},
		"main (d0134a9282)": {Name: "main", Commit: c}, "d0134a9282": {Name: "d0134a9282", Commit: c},
	} {
		if got := side.String(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

// TestElsewhere looks for plans below a folder that is not one.
func TestElsewhere(t *testing.T) {
	f := newFixture(t)
	f.write("a/plan.yaml", "", "b/c/plan.yaml", "", ".hidden/plan.yaml", "", "d/e/f/g/h/i/plan.yaml", "", "e/plan.yaml/x", "", "f/other.yaml", "")
	f.link("a", "linked")
	side, err := sidesIn(t, f.dir).Now(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(side.Elsewhere(), " "); got != "a b/c" {
		t.Errorf("Elsewhere is %q", got)
	}
}
