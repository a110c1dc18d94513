package memory_test

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"passband.example/plandiff/plan/memory"
	"pgregory.net/rapid"
)

// TestIsAFileSystem holds it to what the standard library asks of one.
func TestIsAFileSystem(t *testing.T) {
	m := memory.Texts(map[string][]byte{"plan.yaml": []byte("plan: P\n"), "a/b/c.yaml": nil, "a/d.yaml": []byte("x"), "z.yaml": nil})
	if err := fstest.TestFS(m, "plan.yaml", "a/b/c.yaml", "a/d.yaml", "z.yaml"); err != nil {
		t.Error(err)
	}
	if err := fstest.TestFS(memory.Texts(nil)); err != nil {
		t.Error(err)
	}
}

// Any set of paths gives a file system, and where every path can be one, all of them are there.
func TestAnyPaths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[ab/.]{1,6}`)
		files := make(map[string][]byte)
		for _, name := range rapid.SliceOfN(name, 0, 8).Draw(t, "names") {
			files[name] = []byte(name)
		}
		var walked []string
		m := memory.Texts(files)
		err := fs.WalkDir(m, ".", func(name string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() {
				walked = append(walked, name)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		if err := fstest.TestFS(m, walked...); err != nil {
			t.Fatal(err)
		}
		for _, name := range walked {
			if text, err := fs.ReadFile(m, name); err != nil || string(text) != name {
				t.Fatalf("%s reads as %q, %v", name, text, err)
			}
		}
		for name := range files {
			_, err := fs.Stat(m, name)
			if err != nil && fs.ValidPath(name) && !fileAbove(files, name) {
				t.Fatalf("%s is not there: %v", name, err)
			}
		}
	})
}

// fileAbove reports whether a folder of the path is a file.
func fileAbove(files map[string][]byte, name string) bool {
	for i, r := range name {
		if _, ok := files[name[:i]]; r == '/' && ok {
			return true
		}
	}
	return false
}

func TestLinksAreNotFollowed(t *testing.T) {
	m := memory.New(map[string]memory.File{"link": {Data: []byte("plan.yaml"), Mode: fs.ModeSymlink}, "plan.yaml": {}})
	about, err := fs.Stat(m, "link")
	if err != nil || about.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is told as %v, %v", about, err)
	}
}
