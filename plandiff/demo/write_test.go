package demo_test

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
)

func TestWriteRefuses(t *testing.T) {
	for _, c := range []struct {
		name, why, want string
		prepare         func(t *testing.T, dir string)
	}{
		{"a folder with something in it", "it may be somebody's plan", "not empty", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, "plan.yaml"), "mine\n")
		}},
		{"a folder with a hidden file in it", "it may be a repository", "not empty", func(t *testing.T, dir string) {
			write(t, filepath.Join(dir, ".git", "HEAD"), "mine\n")
		}},
		{"a file", "it would be lost", "not a folder", func(t *testing.T, dir string) { write(t, dir, "mine\n") }},
		{"a link", "what it points to is elsewhere", "not a folder", func(t *testing.T, dir string) {
			if err := os.Symlink(t.TempDir(), dir); err != nil {
				t.Fatal(err)
			}
		}},
		{"the folder one is in", "the shell would stand in a folder that is gone", "you are in", func(t *testing.T, dir string) {
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			t.Chdir(dir)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			parent := t.TempDir()
			dir := filepath.Join(parent, "club")
			c.prepare(t, dir)
			before := listing(t, parent)
			err := demo.Write(context.Background(), dir)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q (%s)", err, c.want, c.why)
			}
			if after := listing(t, parent); after != before {
				t.Errorf("was:\n%s\nis:\n%s", before, after)
			}
		})
	}
}

func TestWriteSaysThatTheParentIsMissing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "no", "club")
	err := demo.Write(context.Background(), dir)
	if err == nil || !strings.Contains(err.Error(), "make that one first") {
		t.Errorf("error %v, want what to do about it", err)
	}
}

func TestWriteTakesAnEmptyFolder(t *testing.T) {
	dir := t.TempDir()
	if err := demo.Write(context.Background(), dir); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(dir, "plan.yaml")); err != nil {
		t.Error(err)
	}
}

// An impatient context ends after it has been asked so many times.
type impatient struct {
	context.Context
	left int
}

func (c *impatient) Err() error {
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}

func TestAFailureAtAnyCommitLeavesNothing(t *testing.T) {
	for n := range len(demo.History()) {
		parent := t.TempDir()
		err := demo.Write(&impatient{context.Background(), n}, filepath.Join(parent, "club"))
		if err == nil || !strings.Contains(err.Error(), context.Canceled.Error()) {
			t.Fatalf("stopped after %d commits: error %v", n, err)
		}
		if left := listing(t, parent); left != "" {
			t.Errorf("stopped after %d commits, it left: %.300q", n, left)
		}
	}
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// listing returns the path and text of everything below a folder.
func listing(t *testing.T, dir string) string {
	t.Helper()
	var out strings.Builder
	err := fs.WalkDir(os.DirFS(dir), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == "." {
			return err
		}
		out.WriteString(path + "\n")
		if d.Type().IsRegular() {
			text, err := os.ReadFile(filepath.Join(dir, path))
			if err != nil {
				return err
			}
			out.Write(text)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}
