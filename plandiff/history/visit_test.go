package history

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"sync"
	"testing"
)

// visit may read the files that it is told of, stop the walk, or fail.
func TestWalkVisit(t *testing.T) {
	f := newFixture(t).harrow()
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "HEAD")
		read := 0
		err := r.Walk(t.Context(), Commit{}, c, "plans/harrow", func(c Commit, changes []BlobChange) error {
			for _, ch := range changes {
				if !ch.New.IsFile() {
					t.Errorf("%s: %+v is no file", backing, ch)
				}
				data, err := r.Blob(t.Context(), ch.New.Hash)
				if err != nil {
					return err
				}
				files, err := r.Tree(t.Context(), c, "plans/harrow")
				if err != nil {
					return err
				}
				if want, err := fs.ReadFile(files, ch.Path); err != nil || !bytes.Equal(data, want) {
					t.Errorf("%s: %s: %q, the tree has %q, %v", backing, ch.Path, data, want, err)
				}
				read++
			}
			return nil
		})
		if err != nil || read != 6 {
			t.Errorf("%s: %d files, %v, want 6", backing, read, err)
		}
		for want, stop := range map[error]error{nil: fs.SkipAll, errFolder: errFolder} {
			calls := 0
			err := r.Walk(t.Context(), Commit{}, c, "", func(Commit, []BlobChange) error { calls++; return stop })
			if !errors.Is(err, want) || calls != 1 {
				t.Errorf("%s: visit said %v: error = %v after %d calls, want %v after 1", backing, stop, err, calls, want)
			}
		}
	}
}

// Changes between two commits are what the real git diff-tree says.
func TestChangesAgreeWithGit(t *testing.T) {
	f := newFixture(t).harrow()
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		for _, pair := range [][2]string{{"light", "main"}, {"main", "light"}, {"v1", "feature/knob"}, {"main", "main"}} {
			for _, dir := range []string{"", "plans", "plans/harrow", "README", "nowhere"} {
				got, err := r.Changes(t.Context(), mustResolve(t, r, pair[0]), mustResolve(t, r, pair[1]), dir)
				if err != nil {
					t.Fatal(err)
				}
				want := f.realChanges(dir, pair[0]+"^{commit}", pair[1]+"^{commit}")
				if len(got) != len(want) {
					t.Errorf("%s: %v below %q: %v, git says %v", backing, pair, dir, got, want)
					continue
				}
				for i := range got {
					if got[i].Path != want[i].Path || got[i].Old != want[i].Old || got[i].New != want[i].New {
						t.Errorf("%s: %v below %q: %+v, git says %+v", backing, pair, dir, got[i], want[i])
					}
				}
			}
		}
		c := mustResolve(t, r, "light")
		if all, err := r.Changes(t.Context(), Commit{}, c, ""); err != nil || len(all) != 2 || all[0].Old.Exists() {
			t.Errorf("%s: from nothing: %+v, %v, want the two files of the first commit", backing, all, err)
		}
		if _, err := r.Changes(t.Context(), c, c, "../x"); err == nil {
			t.Errorf("%s: a folder outside was accepted", backing)
		}
	}
}

// Several goroutines may share a Repository, also while it changes its backing.
func TestConcurrentReading(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("gc", "-q")
	r := f.open()
	c := mustResolve(t, r, "HEAD")
	var all sync.WaitGroup
	for i := range 8 {
		all.Go(func() {
			if i == 4 {
				if told(t, r, Commit{}, c, "") == "" {
					t.Error("no history")
				}
			}
			files, err := r.Tree(context.Background(), c, "")
			if err != nil {
				t.Error(err)
				return
			}
			for range 20 {
				if data, err := fs.ReadFile(files, "README"); err != nil || string(data) != "more notes\n" {
					t.Errorf("README = %q, %v", data, err)
				}
				if _, _, err := r.MergeBase(context.Background(), c, c); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
}

// A closed repository has no process left, and starts again when asked.
func TestClose(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("gc", "-q") // an open pack is what must be closed
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		first := portrait(t, r)
		if err := r.Close(); err != nil {
			t.Errorf("%s: Close: %v", backing, err)
		}
		if err := r.Close(); err != nil {
			t.Errorf("%s: second Close: %v", backing, err)
		}
		if git, ok := r.store.(*commandStore); ok && (git.contents.cmd != nil || git.sizes.cmd != nil) {
			t.Error("a process was left")
		}
		if again := portrait(t, r); again != first {
			t.Errorf("%s: after Close: %s", backing, firstDifference(again, first))
		}
	}
}

func TestBlobRefuses(t *testing.T) {
	f := newFixture(t).harrow()
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		for _, hash := range []string{"", "HEAD", "main", hashA[:10], "\n" + hashA, f.git("rev-parse", "HEAD:README") + hashA[:24], f.git("rev-parse", "HEAD"), hashA} {
			if data, err := r.Blob(t.Context(), hash); err == nil {
				t.Errorf("%s: Blob(%q) = %q", backing, hash, data)
			}
		}
		if _, err := r.BlobSize(t.Context(), hashA); !errors.Is(err, ErrMissing) {
			t.Errorf("%s: BlobSize: %v, want ErrMissing", backing, err)
		}
		if _, err := r.BlobSize(t.Context(), "HEAD"); err == nil {
			t.Errorf("%s: BlobSize of a name", backing)
		}
	}
}
