package whole_test

import (
	"os"
	"path/filepath"
	"testing"

	"passband.example/plandiff/whole"
)

func TestFile(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "plan.yaml")
	for _, text := range []string{"first", "second", ""} {
		if err := whole.File(name, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got, err := os.ReadFile(name); err != nil || string(got) != text {
			t.Errorf("%q, %v, want %q", got, err, text)
		}
		if text == "first" {
			if err := os.Chmod(name, 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the permissions became %v, %v", info.Mode(), err)
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
		t.Errorf("something else is left: %v, %v", entries, err)
	}
}

func TestFileThatCannotBe(t *testing.T) {
	dir := t.TempDir()
	for _, test := range []struct{ name, why, file string }{
		{"a folder", "it is not overwritten", dir},
		{"no folder", "nothing is made that nobody asked for", filepath.Join(dir, "no", "plan.yaml")},
	} {
		if err := whole.File(test.file, []byte("x")); err == nil {
			t.Errorf("%s (%s): no error", test.name, test.why)
		}
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 0 {
		t.Errorf("something is left: %v, %v", entries, err)
	}
}
