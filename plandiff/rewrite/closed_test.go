package rewrite_test

import (
	"os"
	"path/filepath"
	"testing"

	"passband.example/plandiff/generate"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/rewrite/layout"
	"pgregory.net/rapid"
)

// opensAlike holds a text whose records are left closed against the same text with all
// values read: the same bytes closed and open, and the same tree. It tells how many
// records were closed.
func opensAlike(t interface {
	Helper()
	Fatalf(string, ...any)
}, text []byte, starts []int32) int {
	t.Helper()
	want, err := layout.Parse(text)
	got, closedErr := layout.ParseRecords(string(text), starts)
	if (err == nil) != (closedErr == nil) {
		t.Fatalf("read whole: %v; with records closed: %v\n%s", err, closedErr, text)
	}
	if err != nil {
		return 0
	}
	if got.String() != string(text) {
		t.Fatalf("closed, it is\n%s\nand not\n%s", got, text)
	}
	closed := 0
	sameNode(t, got.Root, want.Root, &closed)
	if got.String() != string(text) || got.Tail != want.Tail {
		t.Fatalf("opened, it is\n%s\nand not\n%s", got, text)
	}
	return closed
}

func sameNode(t interface {
	Helper()
	Fatalf(string, ...any)
}, got, want *layout.Node, closed *int) {
	t.Helper()
	if got == nil || want == nil {
		if got != want {
			t.Fatalf("%v and not %v", got, want)
		}
		return
	}
	if got.Kind != want.Kind || got.Flow != want.Flow || got.Locked != want.Locked || got.Line != want.Line || got.Col != want.Col ||
		got.Text != want.Text || got.Value != want.Value || got.Indent() != want.Indent() || got.Close() != want.Close() || len(got.Entries) != len(want.Entries) {
		t.Fatalf("%+v\nand not\n%+v", got, want)
	}
	for i, e := range got.Entries {
		f := want.Entries[i]
		if e.IsClosed() {
			*closed++
		}
		e.Open()
		if e.Lead != f.Lead || e.Sep != f.Sep || e.Comma != f.Comma || e.Trail != f.Trail {
			t.Fatalf("%+v\nand not\n%+v", e, f)
		}
		sameNode(t, e.Key, f.Key, closed)
		sameNode(t, e.Value, f.Value, closed)
	}
}

// Records that are left closed are what they are when all is read.
func TestClosedRecordsOpenAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, p, _ := drawn(t)
		starts := rewrite.Starts(p)
		for name, text := range files {
			if plan.TableOf(name) == nil {
				opensAlike(t, text, starts[name])
			}
		}
	})
}

// Random plans are small, and few of their layouts can be cut; a club's plan is mostly closed.
func TestClosedRecordsOfAClub(t *testing.T) {
	files := generate.New(generate.Size{Channels: 200}, 1).Files()
	p := plantest.Load(t, files)
	if closed := opensAlike(t, files[plan.RootFile], rewrite.Starts(p)[plan.RootFile]); closed < 100 {
		t.Errorf("only %d records were closed", closed)
	}
}

func FuzzClosedRecords(f *testing.F) {
	names, err := filepath.Glob("../demo/data/*/*.yaml")
	if err != nil || len(names) == 0 {
		f.Fatal("no seeds", err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	for _, text := range []string{
		"groups:\n  a: {label: \"x\n    # y\"}\n  # z\n  b: {}\n",
		"groups:\n  a: {label: \"x\nzones: y\"}\n",
		"groups: # all\n  # one\n  a:\n    note: |\n      x\n\n      # y\n\n  b: {label: it's}\n\n# end\n",
		"groups:\n  a:\n    label: x\n     y\n    # z\n  b:\n",
		"groups:\n  a: {id: 1,\n  label: A}\n  b: {id: 2}\n",
		"messages:\n  a: 'x'\n  b: >\n    y\n  # z\nplan: A",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := rewrite.Load(map[string][]byte{plan.RootFile: []byte(text)})
		if err != nil || len(p.Problems) > 0 {
			return
		}
		opensAlike(t, []byte(text), rewrite.Starts(p)[plan.RootFile])
	})
}
