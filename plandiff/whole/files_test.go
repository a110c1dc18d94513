package whole_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/plandiff/whole"
)

// TestFiles replaces files below a folder, or none of them.
func TestFiles(t *testing.T) {
	for _, c := range []struct {
		name, why string
		was, now  map[string]string
		prepare   func(t *testing.T, dir string)
		fails     string
		want      string // what a.yaml and sub/b.yaml hold then
	}{
		{"two", "both are other texts then", map[string]string{"a.yaml": "a", "sub/b.yaml": "b"}, map[string]string{"a.yaml": "A", "sub/b.yaml": "B"}, nil, "", "A B"},
		{"one", "the other stays", map[string]string{"a.yaml": "a", "sub/b.yaml": "b"}, map[string]string{"sub/b.yaml": "B"}, nil, "", "a B"},
		{"none", "nothing is done", nil, nil, nil, "", "a b"},
		{"changed meanwhile", "somebody's edit must not be lost, and the first file not be written either",
			map[string]string{"a.yaml": "a", "sub/b.yaml": "older"}, map[string]string{"a.yaml": "A", "sub/b.yaml": "B"}, nil, "has changed meanwhile", "a b"},
		{"a link", "what is outside must not be read or written through it", map[string]string{"a.yaml": "a", "sub/b.yaml": "b"}, map[string]string{"a.yaml": "A", "sub/b.yaml": "B"},
			func(t *testing.T, dir string) {
				must(t, os.Rename(filepath.Join(dir, "sub/b.yaml"), filepath.Join(dir, "elsewhere")))
				must(t, os.Symlink("../elsewhere", filepath.Join(dir, "sub/b.yaml")))
			}, "has changed meanwhile", "a b"},
		{"gone", "a file that is not there any more is none to replace", map[string]string{"a.yaml": "a", "c.yaml": "c"}, map[string]string{"a.yaml": "A", "c.yaml": "C"}, nil, "cannot be read again", "a b"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			must(t, os.Mkdir(filepath.Join(dir, "sub"), 0o755))
			must(t, os.WriteFile(filepath.Join(dir, "a.yaml"), []byte("a"), 0o640))
			must(t, os.WriteFile(filepath.Join(dir, "sub/b.yaml"), []byte("b"), 0o644))
			if c.prepare != nil {
				c.prepare(t, dir)
			}
			err := whole.Files(dir, texts(c.was), texts(c.now))
			if c.fails == "" && err != nil || c.fails != "" && (err == nil || !strings.Contains(err.Error(), c.fails)) {
				t.Errorf("%s: got the error %v, want %q", c.why, err, c.fails)
			}
			a, errA := os.ReadFile(filepath.Join(dir, "a.yaml"))
			b, errB := os.ReadFile(filepath.Join(dir, "sub/b.yaml"))
			if got := string(a) + " " + string(b); errA != nil || errB != nil || got != c.want {
				t.Errorf("%s: the files hold %q, want %q", c.why, got, c.want)
			}
			if info, err := os.Stat(filepath.Join(dir, "a.yaml")); err != nil || info.Mode().Perm() != 0o640 {
				t.Errorf("the permissions are %v, %v", info.Mode(), err)
			}
			if left, err := filepath.Glob(filepath.Join(dir, "*", ".passband-*")); err != nil || len(left) > 0 {
				t.Errorf("left behind: %q, %v", left, err)
			}
			if left, err := filepath.Glob(filepath.Join(dir, ".passband-*")); err != nil || len(left) > 0 {
				t.Errorf("left behind: %q, %v", left, err)
			}
		})
	}
}

func texts(m map[string]string) map[string][]byte {
	all := make(map[string][]byte)
	for name, text := range m {
		all[name] = []byte(text)
	}
	return all
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
