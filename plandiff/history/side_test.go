package history

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A plan that says which one it is.
func named(name string) string { return "plan: " + name + "\n" }

// sidesIn opens the plan in a folder of a fixture.
func sidesIn(t *testing.T, dir string) *Sides {
	t.Helper()
	s, err := At(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// says gives the name that the plan of a side has.
func says(t *testing.T, side Side) string {
	t.Helper()
	text, err := fs.ReadFile(side.Files, "plan.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSuffix(strings.TrimPrefix(string(text), "plan: "), "\n")
}

// TestAt wants the plan to be found from any folder in it, and none beyond the
// repository or where there is none.
func TestAt(t *testing.T) {
	f := newFixture(t)
	f.commit("Two plans", "hills/plan.yaml", named("hills"), "hills/notes/a/x.txt", "x", "valley/plan.yaml", named("valley"), "README", "x")
	outside := filepath.Dir(f.dir)
	if err := os.WriteFile(filepath.Join(outside, "plan.yaml"), []byte(named("outside")), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, dir, want, inside, why string }{
		{"the folder of the plan", "hills", "hills", "hills", "the plain case"},
		{"a folder in it", "hills/notes/a", "hills", "hills", "commands are run from anywhere"},
		{"another plan of the repository", "valley", "valley", "valley", "a repository may hold several"},
		{"the top of the repository", ".", "", "", "what is above the repository is not its plan"},
		{"a folder that is gone", "valley/old", "", "valley/old", "a revision may have it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sidesIn(t, filepath.Join(f.dir, c.dir))
			if s.inside != c.inside {
				t.Errorf("inside is %q, want %q: %s", s.inside, c.inside, c.why)
			}
			side, err := s.Now(context.Background())
			switch {
			case c.want != "" && err != nil:
				t.Fatal(err)
			case c.want != "":
				if got := says(t, side); got != c.want || side.Name != WorkTreeName || side.Commit != nil {
					t.Errorf("Now is %q of %+v, want %q: %s", got, side, c.want, c.why)
				}
			case err == nil:
				if _, err := fs.Stat(side.Files, "plan.yaml"); err == nil {
					t.Errorf("it found a plan: %s", c.why)
				}
			}
		})
	}
	if got := sidesIn(t, outside).inside; got != "" {
		t.Errorf("outside of every repository, inside is %q", got)
	}
}

// TestNamed tells a revision from a folder.
func TestNamed(t *testing.T) {
	f := newFixture(t)
	f.commit("One", "plans/plan.yaml", named("one"))
	f.git("tag", "v1")
	f.commit("Two", "plans/plan.yaml", named("two"))
	f.git("branch", "both")
	f.git("branch", "feature")
	f.write("both/plan.yaml", named("folder both"), "plans/plan.yaml", named("edited"), "plans/sub/x", "x", "other/plan.yaml", named("other"))
	t.Chdir(f.dir)
	s := sidesIn(t, "plans")
	for _, c := range []struct{ name, ask, want, note, folder, why string }{
		{"a tag", "v1", "one", "", "plans", "a release"},
		{"a branch", "main", "two", "", "plans", "what was recorded last"},
		{"steps back", "main~1", "one", "", "plans", "git's own notation"},
		{"a folder", "other", "other", "", "other", "no revision has that name"},
		{"a folder in a plan", "./plans/sub", "edited", "", "plans", "the plan that it is in"},
		{"both", "both", "two", "not the folder, which is ./both", "plans", "the revision goes first, and that is said"},
		{"surely a folder", "./both", "folder both", "", "both", "./ names a folder"},
		{"a folder with a slash behind", "both/", "folder both", "", "both", "so does a slash"},
		{"an absolute path", filepath.Join(f.dir, "other"), "other", "", filepath.Join(f.dir, "other"), "no revision begins with a slash"},
	} {
		t.Run(c.name, func(t *testing.T) {
			side, err := s.Named(context.Background(), c.ask)
			if err != nil {
				t.Fatal(err)
			}
			if got := says(t, side); got != c.want || side.Note != c.note || side.Folder != filepath.ToSlash(c.folder) || side.Name != c.ask {
				t.Errorf("Named(%q) is %q of %+v, want %q in %q with the note %q: %s", c.ask, got, side, c.want, c.folder, c.note, c.why)
			}
		})
	}
	for _, c := range []struct{ name, ask, want, why string }{
		{"a slip", "v2", `there is no branch, tag or commit "v2" here; nearest: v1`, "the nearest is told"},
		{"a part", "ature", `there is no branch, tag or commit "ature" here; nearest: feature`, "people remember a part"},
		{"a file", "plans/plan.yaml", `"plans/plan.yaml" is a file; name a revision, or the folder of a plan`, "a plan is a folder"},
		{"no folder", "./nowhere", `there is no folder "./nowhere"; look at its spelling, and at the folder that you are in`, "it is surely a path"},
		{"a file in a revision", "main:plans", `"main:plans" does not name a commit: a colon picks a file; give the revision alone`, "git has it, and it is no commit"},
		{"empty", "", "the revision is empty; write a branch, a tag, a commit hash or HEAD~1", "a variable that was not set"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := s.Named(context.Background(), c.ask); err == nil || err.Error() != c.want {
				t.Errorf("Named(%q) fails with %v, want %s: %s", c.ask, err, c.want, c.why)
			}
		})
	}
}

// TestNamedBare names the folder of the plan behind the repository.
func TestNamedBare(t *testing.T) {
	f := newFixture(t)
	f.commit("One", "plans/hills/plan.yaml", named("hills"), "plans/plan.txt", "x")
	bare := f.dir + ".git"
	f.git("clone", "-q", "--bare", f.dir, bare)
	side, err := sidesIn(t, filepath.Join(bare, "plans", "hills")).Now(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if says(t, side) != "hills" || side.Name != "HEAD" || side.Folder != "plans/hills" {
		t.Errorf("Now is %+v", side)
	}
	t.Chdir(bare)
	if side, err = sidesIn(t, filepath.Join("plans", "hills")).Named(context.Background(), "main"); err != nil || says(t, side) != "hills" {
		t.Errorf("Named(main) is %+v, %v", side, err)
	}
	top, err := sidesIn(t, ".").Now(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if got := top.Elsewhere(); len(got) != 1 || got[0] != "plans/hills" {
		t.Errorf("Elsewhere is %q", got)
	}
	if _, err := sidesIn(t, "plans/nowhere").Now(context.Background()); err == nil || !strings.Contains(err.Error(), `has no folder "plans/nowhere"`) {
		t.Errorf("Now fails with %v", err)
	}
}

// TestNoRepository wants folders to work where there is no repository, and the
// reason to be told where a revision is named.
func TestNoRepository(t *testing.T) {
	dir := tempDir(t)
	t.Chdir(dir)
	if err := os.Mkdir("other", 0o755); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"plan.yaml", "other/plan.yaml"} {
		if err := os.WriteFile(file, []byte(named(file)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	s := sidesIn(t, ".")
	if side, err := s.Named(context.Background(), "other"); err != nil || says(t, side) != "other/plan.yaml" {
		t.Errorf("other: %v", err)
	}
	if _, _, err := s.Pair(context.Background(), []string{".", "other"}, false); err != nil {
		t.Error(err)
	}
	if _, _, err := s.Pair(context.Background(), nil, false); !errors.Is(err, ErrNoRepository) {
		t.Errorf("comparing with HEAD fails with %v", err)
	}
	if got := s.Revisions(context.Background()); got != nil {
		t.Errorf("Revisions is %q", got)
	}
}

// TestNeedlessGit checks a plan whose repository can't be read: its files can.
func TestNeedlessGit(t *testing.T) {
	f := newFixture(t, "--object-format=sha256")
	f.commit("One", "plan.yaml", named("one"))
	t.Setenv("PATH", t.TempDir())
	s := sidesIn(t, f.dir)
	if side, err := s.Now(context.Background()); err != nil || says(t, side) != "one" {
		t.Errorf("Now fails with %v", err)
	}
	if _, err := s.Named(context.Background(), "main"); !errors.Is(err, ErrNeedsGit) {
		t.Errorf("Named fails with %v", err)
	}
}

func TestRevisions(t *testing.T) {
	f := newFixture(t)
	f.commit("One", "plan.yaml", named("one"))
	f.git("tag", "v1")
	f.git("branch", "feature/knob")
	f.git("clone", "-q", f.dir, f.dir+"-2")
	got := strings.Join(sidesIn(t, f.dir+"-2").Revisions(context.Background()), " ")
	if want := "main origin/feature/knob origin/main v1"; got != want {
		t.Errorf("Revisions is %q, want %q", got, want)
	}
}
