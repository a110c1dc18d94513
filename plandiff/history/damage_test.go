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

// A partial clone has left objects out. They are not fetched behind the user's
// back, and the message says what to do.
func TestPartialClone(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("config", "uploadpack.allowFilter", "true")
	dir := f.dir + "-2"
	f.git("clone", "-q", "--filter=blob:none", "--no-checkout", "file://"+f.dir, dir)
	f.at(dir).git("config", "protocol.file.allow", "always")
	packs := countFiles(t, filepath.Join(dir, ".git", "objects", "pack"))
	check := func(r *Repository) {
		t.Helper()
		c := mustResolve(t, r, "HEAD")
		files, err := r.Tree(context.Background(), c, "plans/harrow")
		if err != nil {
			t.Fatalf("%s: the folders are there: %v", r.Backing(), err)
		}
		_, err = files.Open("plan.yaml")
		if !errors.Is(err, ErrMissing) || !strings.Contains(err.Error(), "clone again without --filter") {
			t.Errorf("%s: error = %v, want ErrMissing with what to do", r.Backing(), err)
		}
		if story := told(t, r, Commit{}, c, ""); !strings.Contains(story, "plans/harrow/plan.yaml") {
			t.Errorf("%s: history without contents is there, but Walk gave\n%s", r.Backing(), story)
		}
	}
	check(mustOnly(t, dir, "go-git"))
	check(mustOnly(t, dir, "git"))
	check(f.at(dir).open())
	if now := countFiles(t, filepath.Join(dir, ".git", "objects", "pack")); now != packs {
		t.Errorf("%d files in objects/pack, was %d: something was fetched", now, packs)
	}
}

func countFiles(t *testing.T, dir string) int {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	return len(list)
}

func TestDamagedRepository(t *testing.T) {
	cases := []struct {
		name, why string
		harm      func(t *testing.T, object string)
		kind      error
		want      string
	}{
		{"missing", "an object file was deleted", func(t *testing.T, object string) {
			if err := os.Remove(object); err != nil {
				t.Fatal(err)
			}
		}, ErrMissing, "git fsck"},
		{"cut short", "a crash while the disk was full", func(t *testing.T, object string) { rewrite(t, object, func(b []byte) []byte { return b[:len(b)-8] }) }, ErrDamaged, "git fsck"},
		{"flipped", "bits that went bad", func(t *testing.T, object string) {
			rewrite(t, object, func(b []byte) []byte { b[len(b)/2] ^= 0xff; b[len(b)-1] ^= 0xff; return b })
		}, ErrDamaged, "git fsck"},
		{"empty", "a crash before the data was written", func(t *testing.T, object string) { rewrite(t, object, func([]byte) []byte { return nil }) }, nil, "git fsck"},
	}
	for _, c := range cases {
		for _, what := range []string{"HEAD:plan.yaml", "HEAD^{tree}", "HEAD"} {
			f := newFixture(t)
			f.commit("one", "plan.yaml", strings.Repeat("plan: Harrow Valley\n", 50))
			id := f.git("rev-parse", what)
			c.harm(t, filepath.Join(f.dir, ".git", "objects", id[:2], id[2:]))
			for _, backing := range []string{"go-git", "git", "both"} {
				r := mustOpen(t, f, backing)
				err := readEverything(r)
				if err == nil || c.kind != nil && !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.want) {
					t.Errorf("%s, %s (%s), with %s: error = %v, want %v and what to do", what, c.name, c.why, backing, err, c.kind)
				}
			}
		}
	}
}

func mustOpen(t *testing.T, f *fixture, backing string) *Repository {
	t.Helper()
	if backing == "both" {
		return f.open()
	}
	return mustOnly(t, f.dir, backing)
}

func readEverything(r *Repository) error {
	ctx := context.Background()
	c, err := r.Resolve(ctx, "main")
	if err != nil {
		return err
	}
	files, err := r.Tree(ctx, c, "")
	if err != nil {
		return err
	}
	_, err = fs.ReadFile(files, "plan.yaml")
	return err
}

func rewrite(t *testing.T, path string, change func([]byte) []byte) {
	t.Helper()
	old, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, change(old), 0o644); err != nil {
		t.Fatal(err)
	}
}

// What go-git does not find is asked of git, which may: here the objects moved
// into another repository after opening.
func TestFallsBackToGit(t *testing.T) {
	f := newFixture(t).harrow()
	r := f.open()
	if r.Backing() != "go-git" {
		t.Fatalf("Backing = %s", r.Backing())
	}
	objects := filepath.Join(f.dir, ".git", "objects")
	if err := os.Rename(objects, f.dir+"-objects"); err != nil {
		t.Fatal(err)
	}
	appendFile(t, filepath.Join(objects, "info", "alternates"), f.dir+"-objects\n")
	if got, want := portrait(t, r), f.truth(); got != want {
		t.Errorf("after the fall: %s", firstDifference(got, want))
	}
	if r.Backing() != "git" {
		t.Errorf("Backing = %s, want git", r.Backing())
	}
}

// Formats of the future, and what git says of them, are passed on with advice.
func TestTooNewForEither(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("config", "core.repositoryformatversion", "1")
	f.git("config", "extensions.somethingNew", "true")
	_, err := Open(context.Background(), f.dir)
	if err == nil || !strings.Contains(err.Error(), "update git") {
		t.Errorf("error = %v, want the advice to update git", err)
	}
	t.Setenv("PATH", t.TempDir())
	_, err = Open(context.Background(), f.dir)
	if !errors.Is(err, ErrNeedsGit) || !strings.Contains(err.Error(), "somethingNew") {
		t.Errorf("without git: error = %v, want ErrNeedsGit and the extension's name", err)
	}
}
