package history

import (
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
)

func TestWorkTreeIsAFileSystem(t *testing.T) {
	f := &fixture{t: t, dir: tempDir(t)}
	f.write("plan.yaml", "plan: x\n", "empty", "", "a/b/c.yaml", "c: 1\n", "a/b.yaml", "b: 1\n", "ünï cödé", "odd\n")
	files, err := WorkTree(f.dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := fstest.TestFS(files, "plan.yaml", "empty", "a/b/c.yaml", "a/b.yaml", "ünï cödé"); err != nil {
		t.Error(err)
	}
}

func TestWorkTreeFollowsNothing(t *testing.T) {
	outside := &fixture{t: t, dir: tempDir(t)}
	outside.write("plan.yaml", "plan: secret\n")
	f := &fixture{t: t, dir: tempDir(t)}
	f.write("plans/plan.yaml", "plan: x\n")
	up, err := filepath.Rel(filepath.Join(f.dir, "plans"), outside.dir)
	if err != nil {
		t.Fatal(err)
	}
	links := map[string]string{"plans/away": outside.dir, "plans/up": up, "plans/near": "plan.yaml", "folder": "plans", "gone": "nowhere", "self": "."}
	for name, target := range links {
		f.link(target, name)
	}
	files, err := WorkTree(f.dir)
	if err != nil {
		t.Fatal(err)
	}
	followsNothing(t, "work tree", files, links)
	for _, name := range []string{"../x", "plans/../plans/plan.yaml", "/etc", "", outside.dir} {
		if _, err := files.Open(name); err == nil {
			t.Errorf("Open(%q) was allowed", name)
		}
	}
}

func TestWorkTreeOfNothing(t *testing.T) {
	if _, err := WorkTree(filepath.Join(t.TempDir(), "missing")); !os.IsNotExist(err) {
		t.Errorf("error = %v, want not exist", err)
	}
}
