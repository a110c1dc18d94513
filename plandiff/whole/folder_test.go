package whole

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// fill makes a folder with one file.
func fill(dir string) error {
	if err := os.Mkdir(dir, 0o755); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "file"), []byte("whole"), 0o644)
}

func TestFolder(t *testing.T) {
	for _, c := range []struct {
		name, why string
		ready     func(above string) error
		target    string
		want      string // "" for success
	}{
		{name: "new", why: "the plain case", target: "new"},
		{name: "empty", why: "an empty folder gives way", target: "new", ready: func(above string) error { return os.Mkdir(filepath.Join(above, "new"), 0o755) }},
		{name: "filled", why: "nothing is overwritten", target: "new", ready: func(above string) error { return fill(filepath.Join(above, "new")) },
			want: "new is not empty, and nothing is overwritten; name a new folder"},
		{name: "a file", why: "nothing is overwritten", target: "f", ready: func(above string) error { return os.WriteFile(filepath.Join(above, "f"), nil, 0o644) },
			want: "f exists and is not a folder, and nothing is overwritten; name a new folder"},
		{name: "a link", why: "what it leads to is not ours", target: "l", ready: func(above string) error { return os.Symlink("nowhere", filepath.Join(above, "l")) },
			want: "l exists and is not a folder, and nothing is overwritten; name a new folder"},
		{name: "in a file", why: "a file holds nothing", target: "f/new", ready: func(above string) error { return os.WriteFile(filepath.Join(above, "f"), nil, 0o644) },
			want: "f is a file, and nothing can be put in it; name a new folder"},
		{name: "in nothing", why: "a slip would make folders where nobody looks", target: "no/new", want: "no to put it in; make that one first"},
	} {
		t.Run(c.name, func(t *testing.T) {
			above := t.TempDir()
			if c.ready != nil {
				if err := c.ready(above); err != nil {
					t.Fatal(err)
				}
			}
			before := listing(t, above)
			err := Folder(filepath.Join(above, c.target), fill)
			if c.want == "" {
				if got := listing(t, above); err != nil || got != "new new/file" {
					t.Errorf("%v, %s: %s", err, got, c.why)
				}
				return
			}
			if err == nil || !strings.HasSuffix(err.Error(), c.want) {
				t.Errorf("the error is %v, want one that ends with %q: %s", err, c.want, c.why)
			}
			if got := listing(t, above); got != before {
				t.Errorf("it left %s, there was %s", got, before)
			}
		})
	}
}

// TestHere refuses the folder that somebody stands in.
func TestHere(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, dir := range []string{".", "", ".."} {
		if err := Folder(dir, fill); err == nil || !strings.Contains(err.Error(), "name a new folder") {
			t.Errorf("%q: %v", dir, err)
		}
	}
}

// TestFailure leaves nothing when the building fails, and what was there stays.
func TestFailure(t *testing.T) {
	above := t.TempDir()
	full := errors.New("the disk is full")
	err := Folder(filepath.Join(above, "new"), func(dir string) error { return errors.Join(fill(dir), full) })
	if !errors.Is(err, full) || listing(t, above) != "" {
		t.Errorf("%v, %s", err, listing(t, above))
	}
	if err := os.Mkdir(filepath.Join(above, "new"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := Folder(filepath.Join(above, "new"), func(string) error { return full }); !errors.Is(err, full) || listing(t, above) != "new" {
		t.Errorf("%v, %s", err, listing(t, above))
	}
}

// TestRace keeps what somebody else put there while the folder was being made.
func TestRace(t *testing.T) {
	above := t.TempDir()
	target := filepath.Join(above, "new")
	err := Folder(target, func(dir string) error { return errors.Join(fill(dir), fill(target)) })
	if err == nil || !strings.Contains(err.Error(), "is no longer empty, and nothing is overwritten") || listing(t, above) != "new new/file" {
		t.Errorf("%v, %s", err, listing(t, above))
	}
}

// TestKilled ends half-way, as when the power goes: nothing is at the target, and
// what is left has a name that nothing reads.
func TestKilled(t *testing.T) {
	above := t.TempDir()
	func() {
		defer func() { _ = recover() }()
		_ = Folder(filepath.Join(above, "new"), func(dir string) error {
			if err := fill(dir); err != nil {
				return err
			}
			for name := range strings.FieldsSeq(listing(t, above)) {
				if !strings.HasPrefix(name, ".passband-") {
					t.Errorf("%s is there before it is whole", name)
				}
			}
			panic("a fault in the building")
		})
	}()
	if got := listing(t, above); got != "" {
		t.Errorf("it left %s", got)
	}
}

// TestMode lets others read what was made, as far as the user's own settings do.
func TestMode(t *testing.T) {
	target := filepath.Join(t.TempDir(), "new")
	if err := Folder(target, fill); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(target)
	if err != nil || info.Mode().Perm()&0o700 != 0o700 || info.Mode().Perm() == 0o700 && umask(t) == 0o022 {
		t.Errorf("%v %v", info.Mode(), err)
	}
}

// umask tells what a new folder is given here.
func umask(t *testing.T) os.FileMode {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "x")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(dir)
	if err != nil {
		t.Fatal(err)
	}
	return 0o777 &^ info.Mode().Perm()
}

// listing names all that is below a folder.
func listing(t *testing.T, dir string) string {
	t.Helper()
	var names []string
	err := filepath.WalkDir(dir, func(name string, _ os.DirEntry, err error) error {
		if name != dir {
			names = append(names, filepath.ToSlash(name[len(dir)+1:]))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(names, " ")
}
