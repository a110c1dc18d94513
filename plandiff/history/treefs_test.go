package history

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

// The standard library's own test of file systems.
func TestTreeIsAFileSystem(t *testing.T) {
	f := newFixture(t)
	f.commit("files", "plan.yaml", "plan: x\n", "empty", "", "a/b/c.yaml", "c: 1\n", "a/b.yaml", "b: 1\n", "a-b/x", "x", "ünï cödé \"'", "odd\n")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "HEAD")
		top, err := r.Tree(context.Background(), c, ".")
		if err != nil {
			t.Fatal(err)
		}
		if err := fstest.TestFS(top, "plan.yaml", "empty", "a/b/c.yaml", "a/b.yaml", "a-b/x", "ünï cödé \"'"); err != nil {
			t.Errorf("%s: %v", backing, err)
		}
		below, err := r.Tree(context.Background(), c, "a")
		if err != nil {
			t.Fatal(err)
		}
		if err := fstest.TestFS(below, "b/c.yaml", "b.yaml"); err != nil {
			t.Errorf("%s: %v", backing, err)
		}
	}
}

func TestTreeOfNothing(t *testing.T) {
	f := newFixture(t)
	f.commit("no files at all")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		files, err := r.Tree(context.Background(), mustResolve(t, r, "HEAD"), "")
		if err != nil {
			t.Fatalf("%s: %v", backing, err)
		}
		if err := fstest.TestFS(files); err != nil {
			t.Errorf("%s: %v", backing, err)
		}
	}
}

// Links and submodules are shown for what they are and lead nowhere.
func TestTreeFollowsNothing(t *testing.T) {
	f := newFixture(t)
	f.write("plans/plan.yaml", "plan: x\n")
	f.link("../../outside", "plans/away")
	f.link("plan.yaml", "plans/near")
	f.link("plans", "folder")
	f.commit("links")
	f.git("update-index", "--add", "--cacheinfo", "160000,"+f.git("rev-parse", "HEAD")+",vendor")
	f.git("commit", "-q", "-m", "a submodule")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		files, err := r.Tree(context.Background(), mustResolve(t, r, "HEAD"), "")
		if err != nil {
			t.Fatal(err)
		}
		followsNothing(t, backing, files, map[string]string{"plans/away": "../../outside", "plans/near": "plan.yaml", "folder": "plans"})
		info, err := fs.Stat(files, "vendor")
		if err != nil || info.Mode().Type() != fs.ModeIrregular {
			t.Errorf("%s: submodule: %v, %v", backing, info, err)
		}
		if _, err := files.Open("vendor"); err == nil || !strings.Contains(err.Error(), "submodule") {
			t.Errorf("%s: opening a submodule: %v", backing, err)
		}
	}
}

func followsNothing(t *testing.T, label string, files fs.FS, links map[string]string) {
	t.Helper()
	for name, target := range links {
		info, err := fs.Lstat(files, name)
		if err != nil || info.Mode().Type() != fs.ModeSymlink {
			t.Errorf("%s: Lstat(%q): %v, %v", label, name, info, err)
		}
		if info, err := fs.Stat(files, name); err != nil || info.Mode().Type() != fs.ModeSymlink {
			t.Errorf("%s: Stat(%q) followed the link: %v, %v", label, name, info, err)
		}
		if got, err := fs.ReadLink(files, name); got != target || err != nil {
			t.Errorf("%s: ReadLink(%q) = %q, %v, want %q", label, name, got, err, target)
		}
		if _, err := files.Open(name); err == nil || !strings.Contains(err.Error(), "symbolic link") {
			t.Errorf("%s: Open(%q): %v, want a refusal", label, name, err)
		}
		if _, err := fs.ReadFile(files, name); err == nil || !strings.Contains(err.Error(), "symbolic link") {
			t.Errorf("%s: ReadFile(%q): %v, want a refusal", label, name, err)
		}
		if _, err := fs.ReadDir(files, name); err == nil {
			t.Errorf("%s: ReadDir(%q) followed the link", label, name)
		}
		if _, err := files.Open(name + "/plan.yaml"); err == nil {
			t.Errorf("%s: a link was followed on the way to %q", label, name+"/plan.yaml")
		}
		if _, err := fs.Stat(files, name+"/plan.yaml"); err == nil {
			t.Errorf("%s: a link was followed on the way to %q", label, name+"/plan.yaml")
		}
	}
	err := fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if _, ok := links[path]; ok != (err == nil && d.Type() == fs.ModeSymlink) {
			t.Errorf("%s: listed %q as %v", label, path, d)
		}
		return err
	})
	if err != nil {
		t.Errorf("%s: %v", label, err)
	}
}

// A caller can turn a huge file down without its being read: Stat and Info ask
// for the size alone.
func TestStatReadsNoContents(t *testing.T) {
	f := newFixture(t)
	big := strings.Repeat("a line that packs well\n", 100_000)
	f.commit("big", "big.csv", big, "plan.yaml", "plan: x\n")
	f.commit("bigger", "big.csv", big+"one more line\n") // the older one becomes a delta
	for _, packed := range []bool{false, true} {
		if packed {
			f.git("gc", "-q", "--prune=now")
		}
		for _, backing := range []string{"go-git", "git"} {
			r := mustOnly(t, f.dir, backing)
			counted := &countingStore{store: r.store}
			r.store = counted
			for rev, want := range map[string]int{"HEAD": len(big) + 14, "HEAD~1": len(big)} {
				files, err := r.Tree(context.Background(), mustResolve(t, r, rev), "")
				if err != nil {
					t.Fatal(err)
				}
				counted.bytes = 0
				info, err := fs.Stat(files, "big.csv")
				if err != nil || info.Size() != int64(want) {
					t.Errorf("%s, packed %v: Stat = %v, %v, want %d bytes", backing, packed, info, err, want)
				}
				file, err := files.Open("big.csv")
				if err != nil {
					t.Fatal(err)
				}
				if info, err := file.Stat(); err != nil || info.Size() != int64(want) {
					t.Errorf("%s: after Open: %v, %v", backing, info, err)
				}
				if counted.bytes > 1000 {
					t.Errorf("%s, packed %v: %d bytes were read to learn a size", backing, packed, counted.bytes)
				}
				if data, err := fs.ReadFile(files, "big.csv"); err != nil || len(data) != want || !bytes.HasPrefix(data, []byte(big)) {
					t.Errorf("%s: ReadFile gave %d bytes, %v", backing, len(data), err)
				}
			}
		}
	}
}

type countingStore struct {
	store
	bytes int
}

func (c *countingStore) object(ctx context.Context, id string) (object, error) {
	o, err := c.store.object(ctx, id)
	c.bytes += len(o.data)
	return o, err
}

func TestTreeErrors(t *testing.T) {
	f := newFixture(t).harrow()
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "HEAD")
		for dir, want := range map[string]string{
			"nowhere": `has no folder "nowhere"`, "README": "has no folder", "README/x": "has no folder", "Plans": "has no folder",
			"../x": "not a path below the top", "/plans": "not a path below the top", "plans/": "not a path below the top",
		} {
			if _, err := r.Tree(context.Background(), c, dir); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: Tree(%q): %v, want %q", backing, dir, err, want)
			}
		}
		if _, err := r.Tree(context.Background(), c, "nowhere"); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s: error = %v, want fs.ErrNotExist", backing, err)
		}
		files, err := r.Tree(context.Background(), c, "plans")
		if err != nil {
			t.Fatal(err)
		}
		for name, want := range map[string]error{"plan.yaml": fs.ErrNotExist, "harrow/Plan.yaml": fs.ErrNotExist,
			"harrow/plan.yaml/x": fs.ErrNotExist, "../README": fs.ErrInvalid, "/harrow": fs.ErrInvalid, "": fs.ErrInvalid} {
			if _, err := files.Open(name); !errors.Is(err, want) {
				t.Errorf("%s: Open(%q): %v, want %v", backing, name, err, want)
			}
			if _, err := fs.ReadFile(files, name); !errors.Is(err, want) {
				t.Errorf("%s: ReadFile(%q): %v, want %v", backing, name, err, want)
			}
		}
		if _, err := fs.ReadFile(files, "harrow"); err == nil {
			t.Errorf("%s: a folder was read as a file", backing)
		}
	}
}

// File names that differ only in case are two files, on every machine.
func TestTreeKeepsCase(t *testing.T) {
	f := newFixture(t)
	one, two := f.gitInput("one", "hash-object", "-w", "--stdin"), f.gitInput("two", "hash-object", "-w", "--stdin")
	tree := f.gitInput("100644 blob "+one+"\tPlan.yaml\n100644 blob "+two+"\tplan.yaml\n", "mktree")
	f.git("update-ref", "refs/heads/main", f.git("commit-tree", "-m", "two cases", tree))
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		files, err := r.Tree(context.Background(), mustResolve(t, r, "main"), "")
		if err != nil {
			t.Fatal(err)
		}
		for name, want := range map[string]string{"Plan.yaml": "one", "plan.yaml": "two"} {
			if got, err := fs.ReadFile(files, name); string(got) != want || err != nil {
				t.Errorf("%s: %s = %q, %v, want %q", backing, name, got, err, want)
			}
		}
	}
}
