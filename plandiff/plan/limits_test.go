package plan_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"passband.example/plandiff/plan"
)

func loadFS(t *testing.T, fsys fs.FS) *plan.Plan {
	t.Helper()
	p, err := plan.Load(context.Background(), fsys)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func wantTold(t *testing.T, p *plan.Plan, want string) {
	t.Helper()
	if got := told(p); !regexp.MustCompile(want).MatchString(got) {
		t.Errorf("got  %.2000s\nwant %s", got, want)
	}
}

// A temporary folder with a plan.yaml, and a function to write more files.
func folder(t *testing.T) (dir string, write func(name, text string)) {
	dir = t.TempDir()
	write = func(name, text string) {
		t.Helper()
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("plan.yaml", "plan: P\n")
	return dir, write
}

// A file with a hole of 200 MB is refused by its size, before a byte is read.
func TestSparseFile(t *testing.T) {
	dir, write := folder(t)
	write("huge.yaml", "")
	write("operators.csv", "")
	for _, name := range []string{"huge.yaml", "operators.csv"} {
		if err := os.Truncate(filepath.Join(dir, name), 200<<20); err != nil {
			t.Fatal(err)
		}
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	p := loadFS(t, os.DirFS(dir))
	runtime.ReadMemStats(&after)
	wantTold(t, p, `^huge.yaml: this file is 200 MB large; the most that passband reads is 16 MB; .*; split it.*\noperators.csv: this file is 200 MB large; the most that passband reads is 64 MB; .*$`)
	if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 1 {
		t.Errorf("%d MB were read of it", used)
	}
}

func TestLinks(t *testing.T) {
	dir, write := folder(t)
	outside, _ := folder(t)
	write("real/zones.yaml", "zones: {a: {}}\n")
	for name, to := range map[string]string{
		"zones.yaml":         filepath.Join(dir, "real", "zones.yaml"),
		"secret.yml":         filepath.Join(outside, "plan.yaml"),
		"real/operators.csv": "../nowhere",
		"folder":             outside,
		"notes.txt":          filepath.Join(outside, "plan.yaml"),
	} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	p := loadFS(t, os.DirFS(dir))
	const refused = `: this is a link to another file; links are not followed: they could lead out of the plan; put the file itself here`
	wantTold(t, p, `^real/operators.csv`+refused+`\nsecret.yml`+refused+`\nzones.yaml`+refused+`$`)
	if got := fmt.Sprint(p.Files); got != "[plan.yaml real/zones.yaml]" || p.Zones.Len() != 1 {
		t.Errorf("files %s, zones %d", got, p.Zones.Len())
	}
}

// A plan.yaml that is a link is refused; it is not as if there were none.
func TestLinkedRoot(t *testing.T) {
	outside, _ := folder(t)
	dir := t.TempDir()
	if err := os.Symlink(filepath.Join(outside, "plan.yaml"), filepath.Join(dir, "plan.yaml")); err != nil {
		t.Fatal(err)
	}
	wantTold(t, loadFS(t, os.DirFS(dir)), `^plan.yaml: this is a link to another file`)
}

func TestFolders(t *testing.T) {
	dir, write := folder(t)
	write(strings.Repeat("d/", 32)+"zones.yaml", "zones: {deep: {}}\n")
	write(strings.Repeat("e/", 33)+"zones.yaml", "zones: {deeper: {}}\n")
	write("other/plan.yaml", "bogus: 1\n")
	write("other/sub/zones.yaml", "bogus: 1\n")
	write(".git/config.yaml", "bogus: 1\n")
	write(".draft.yaml", "bogus: 1\n")
	write("not-a-plan/plan.yaml/zones.yaml", "zones: {inside: {}}\n")
	p := loadFS(t, os.DirFS(dir))
	wantTold(t, p, `^(e/){32}e: folders stand more than 32 deep; what stands in it is missing from the plan; move the files up$`)
	if p.Zones.Len() != 2 {
		t.Errorf("files %v", p.Files)
	}
}

// A file whose name could forge a line of output is refused, and named in a way that cannot.
func TestForgedNames(t *testing.T) {
	fsys := fstest.MapFS{
		"plan.yaml": {}, "a\nplan.yaml:1:1: forged.yaml": {}, "esc\x1b[2J/zones.yaml": {}, "bidi\u202e.yaml": {},
		"harmless\x07.txt": {}, "zwölf ü.yaml": {}, "\xff.yml": {},
	}
	p := loadFS(t, fsys)
	wantTold(t, p, `^"\\xff.yml": its name has .*\n"a\\nplan.yaml:1:1: forged.yaml": its name has characters that cannot be shown; .*; give it a name.*\n"bidi\\u202e.yaml": .*\n"esc\\x1b\[2J": [^\n]*$`)
	if got := fmt.Sprint(p.Files); got != "[plan.yaml zwölf ü.yaml]" {
		t.Errorf("files %s", got)
	}
}

func TestUnreadableFile(t *testing.T) {
	fsys := fstest.MapFS{"plan.yaml": {}, "a.yaml": {}, "pipe.yaml": {Mode: fs.ModeNamedPipe}, "z.yaml": {Data: []byte("zones: {a: {}}")}}
	p := loadFS(t, brokenFS{fsys})
	wantTold(t, p, `^a.yaml: this file cannot be read: permission denied; what stands in it is missing from the plan; look at its permissions
pipe.yaml: this is not an ordinary file; .*; take it out, or put a file here$`)
	if p.Zones.Len() != 1 {
		t.Error("the other files were not read")
	}
	if _, err := plan.Load(context.Background(), os.DirFS(filepath.Join(t.TempDir(), "none"))); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a folder that is not there: %v", err)
	}
}

// brokenFS refuses to open a.yaml.
type brokenFS struct{ fstest.MapFS }

func (b brokenFS) Open(name string) (fs.File, error) {
	if name == "a.yaml" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return b.MapFS.Open(name)
}

// A file that grows while it is read does not get past the limit by its first size.
func TestGrowingFile(t *testing.T) {
	fsys := growingFS{fstest.MapFS{"plan.yaml": {}, "grow.yaml": {Data: []byte("# x\n")}}}
	wantTold(t, loadFS(t, fsys), `^grow.yaml: this file is larger than it says; the most that passband reads is 16 MB`)
}

type growingFS struct{ fstest.MapFS }

func (g growingFS) Open(name string) (fs.File, error) {
	f, err := g.MapFS.Open(name)
	if name == "grow.yaml" {
		return growing{f}, err
	}
	return f, err
}

type growing struct{ fs.File }

func (growing) Read(p []byte) (int, error) {
	return copy(p, strings.Repeat("# x\n", 1+len(p)/4)), nil
}

func TestTooMuch(t *testing.T) {
	t.Run("files", func(t *testing.T) {
		fsys := fstest.MapFS{"plan.yaml": {}}
		for i := range plan.MaxFiles {
			fsys[fmt.Sprintf("f%05d.yaml", i)] = &fstest.MapFile{}
		}
		p := loadFS(t, fsys)
		wantTold(t, p, `^plan.yaml: the plan has more than 10000 files; the rest is not read; put more records into each file$`)
	})
	t.Run("files before the root", func(t *testing.T) {
		fsys := fstest.MapFS{"plan.yaml": {}}
		for i := range plan.MaxFiles + 1 {
			fsys[fmt.Sprintf("a%05d.yaml", i)] = &fstest.MapFile{}
		}
		wantTold(t, loadFS(t, fsys), `^a10000.yaml: the plan has more than 10000 files`)
	})
	t.Run("entries", func(t *testing.T) {
		fsys := fstest.MapFS{"aplan.txt": {}, "plan.yaml": {}}
		for i := range plan.MaxEntries {
			fsys[fmt.Sprintf("x%05d.txt", i)] = &fstest.MapFile{}
		}
		wantTold(t, loadFS(t, fsys), `^x49997.txt: there are more than 50000 files and folders here; passband stops looking.*; keep the plan in a folder of its own$`)
	})
	t.Run("bytes together", func(t *testing.T) {
		fsys := fstest.MapFS{"plan.yaml": {}}
		text := []byte("#" + strings.Repeat(" ", plan.MaxFileSize-2) + "\n")
		for i := range 1 + plan.MaxTotalSize/plan.MaxFileSize {
			fsys[fmt.Sprintf("f%d.yaml", i)] = &fstest.MapFile{Data: text}
		}
		wantTold(t, loadFS(t, fsys), `^f8.yaml: the files of the plan are larger than 128 MB together; the rest is not read`)
	})
	t.Run("values together", func(t *testing.T) {
		half := []byte("zones: {a: {channels: [" + strings.Repeat("a,", plan.MaxValues/2) + "]}}")
		fsys := fstest.MapFS{"plan.yaml": {}, "a.yaml": {Data: []byte(strings.Repeat("#,\n", plan.MaxValues/4))}, "b.yaml": {Data: half}}
		wantTold(t, loadFS(t, fsys), `^b.yaml: the plan has more than 3000000 values; this file and those after it are not read.*; split the plan in two$`)
	})
	t.Run("problems", func(t *testing.T) {
		p := loadFS(t, fstest.MapFS{"plan.yaml": {Data: []byte(strings.Repeat("- a\n", 1) + "\n")}, "z.yaml": {Data: bogusKeys(100_000)}})
		if n := len(p.Problems); n != plan.MaxProblems+1 {
			t.Errorf("%d problems", n)
		}
		wantTold(t, p, `there are more than 1000 problems, and the rest is not told; .*; mend those above first$`)
	})
}

func bogusKeys(n int) []byte {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, "repeater%d: x\n", i)
	}
	return []byte(text.String())
}
