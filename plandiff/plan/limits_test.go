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
	"time"

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

// Texts that are made to hang or exhaust a reader. Each must be refused, or read,
// in little time and memory; the bounds are ten times and more what was measured
// on the machine of November 2026 (2 cores), so that they hold on a busy one.
func TestHostileTexts(t *testing.T) {
	const size = 10 << 20
	fill := func(s string) string { return strings.Repeat(s, size/len(s)) }
	for _, test := range []struct {
		name, why string
		text      func() string
		want      string
	}{
		{"open brackets", "each opens a level", func() string { return fill("[") }, `^plan.yaml:1:101: values stand inside one another too deep`},
		{"open braces", "each opens a level", func() string { return fill("{") }, `^plan.yaml:1:101: values stand`},
		{"brackets and braces", "each opens a level", func() string { return fill("[{") }, `^plan.yaml:1:101: values stand`},
		{"hyphens", "each opens a level", func() string { return fill("- ") }, `^plan.yaml:1:\d+: values stand inside one another too deep`},
		{"question marks", "each opens a level", func() string { return fill("? ") }, `^plan.yaml:1:\d+: values stand inside one another too deep`},
		{"100,000 deep, closed", "well formed, and of no use", func() string { return "plan: " + strings.Repeat("[", 100_000) + strings.Repeat("]", 100_000) }, `^plan.yaml:1:\d+: values stand inside one another too deep`},
		{"9,000 deep, closed", "below what yaml.v3 refuses", func() string { return "plan: " + strings.Repeat("[", 9_000) + strings.Repeat("]", 9_000) }, `^plan.yaml:1:7: plan is a list`},
		{"block of 4,000 levels", "each line one deeper", deepBlock, `^plan.yaml:2:2: "a" is not a section|"a" is not a section`},
		{"comments", "a parser may keep them", func() string { return fill("# x\n") }, `^plan.yaml: the plan has more than|^$`},
		{"comments at records", "each belongs to one", func() string { return "zones:\n" + commented(200_000) }, `^$`},
		{"huge scalar", "one value of 10 MB", func() string { return "plan: " + fill("x") }, `^plan.yaml:1:7: plan: it is 10485760 characters long; the most that passband takes here is 200$`},
		{"huge number", "a million digits", func() string { return "edition: " + fill("1") }, `^plan.yaml:1:10: edition: "1{60}…" is not an edition`},
		{"huge frequency", "a million digits", func() string { return "channels: {a: {simplex: " + fill("1") + "}}" }, `^plan.yaml:1:25: simplex: frequency "1{40}"\.\.\.`},
		{"huge key", "a key has 64 letters", func() string { return "zones:\n  ? " + fill("a") + "\n  : {}" }, `^plan.yaml:2:5: "a{60}…" cannot be a key`},
		{"list of aliases", "a list of ten names lists of ten", func() string { return bomb("[", "]", "[x,x,x,x,x,x,x,x,x,x]") }, `aliases \(\*\) repeat more|needs`},
		{"lists of one list", "each item repeats 10,000 values", listBomb, `^plan.yaml:\d+:\d+: .*aliases \(\*\) repeat more values than passband follows; a few lines could otherwise stand for millions; write the values out$`},
		{"records of one record", "each repeats 1,000 entries", recordBomb, `^plan.yaml:\d+:\d+: aliases \(\*\) repeat more values`},
		{"self-referring", "an anchor inside itself", func() string {
			return "zones: &z {a: *z, b: {channels: &c [*c, *c]}}\nrepeaters: {a: &a {fm: *a, dmr: {slot1: *a}}}"
		}, `^plan.yaml:1:12: "a" is not a key of zone a that is known`},
		{"unclosed quote", "it runs to the end", func() string { return "plan: \"" + fill("x\n") }, `^plan.yaml(:1:7: the quote " that opens here is not closed|: the plan has more than)`},
		{"one long line of flow", "a million pairs", func() string { return "zones: {" + strings.Repeat("a: {}, ", 400_000) + "}" }, `there are more than 1000 problems`},
		{"empty documents", "a parser may start anew for each", func() string { return fill("---\n") }, `^plan.yaml(:2:1: a second document|: the plan has more)`},
		{"colons", "each could be a key", func() string { return fill(":") }, `^plan.yaml: the plan has more than`},
		{"tags", "each is kept", func() string { return strings.Repeat("!!str ", 1_000_000) }, `^plan.yaml:1:1: |the text is not`},
	} {
		t.Run(test.name, func(t *testing.T) {
			fsys := fstest.MapFS{"plan.yaml": {Data: []byte(test.text())}}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			p := loadFS(t, fsys)
			spent := time.Since(start)
			runtime.ReadMemStats(&after)
			allocated := (after.TotalAlloc - before.TotalAlloc) >> 20
			t.Logf("%v, %d MB allocated", spent.Round(time.Millisecond), allocated)
			wantTold(t, p, test.want)
			if spent > 60*time.Second || allocated > 2_000 {
				t.Errorf("%s: took %v and %d MB", test.why, spent, allocated)
			}
		})
	}
}

func deepBlock() string {
	var text strings.Builder
	for i := range 4_000 {
		text.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return text.String()
}

func commented(n int) string {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, "  # zone\n  z%d: {} # here\n", i)
	}
	return text.String()
}

// bomb makes nine lists of ten of the one before.
func bomb(open, end, first string) string {
	text := "zones:\n  a0: {channels: &a0 " + first + "}\n"
	for i := 1; i < 10; i++ {
		text += fmt.Sprintf("  a%d: {channels: &a%d %s%s%s}\n", i, i, open, strings.Repeat(fmt.Sprintf("*a%d,", i-1), 10), end)
	}
	return text
}

func listBomb() string {
	text := "zones:\n  a: {channels: &a [" + strings.Repeat("x,", 10_000) + "]}\n"
	for i := range 10_000 {
		text += fmt.Sprintf("  b%d: {channels: *a}\n", i)
	}
	return text
}

func recordBomb() string {
	text := "zones:\n  a: &a {channels: &c [" + strings.Repeat("x,", 1_000) + "]}\n"
	for i := range 10_000 {
		text += fmt.Sprintf("  b%d: *a\n", i)
	}
	return text
}
