package plan_test

import (
	"bytes"
	"context"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// seed gives the plans of the corpus to a fuzz target.
func seed(f *testing.F) {
	names, err := filepath.Glob("testdata/load/*.txtar")
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range names {
		archive, err := txtar.ParseFile(name)
		if err != nil {
			f.Fatal(err)
		}
		var yaml, csv []byte
		for _, file := range archive.Files {
			switch file.Name {
			case "plan.yaml":
				yaml = file.Data
			case "operators.csv":
				csv = file.Data
			}
		}
		f.Add(yaml, csv)
	}
}

// No text makes Load panic, and what it tells is sorted and points into the
// text. A text without a problem is a plan that is written and read back as it is.
func FuzzLoad(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, yaml, csv []byte) {
		files := map[string][]byte{plan.RootFile: yaml, plan.OperatorsFile: csv}
		p := plantest.Load(t, files)
		checkProblems(t, p, files)
		if len(p.Problems) > 0 {
			return
		}
		written, err := plan.Files(p)
		if err != nil {
			t.Fatal(err)
		}
		again := plantest.Load(t, written)
		if diff := plantest.Equal(p, again); diff != "" || len(again.Problems) > 0 {
			t.Fatalf("%s %v\n%s\n%s", diff, again.Problems, written[plan.RootFile], written[plan.OperatorsFile])
		}
		once, err := plan.Files(again)
		if err != nil || !reflect.DeepEqual(written, once) {
			t.Fatalf("written twice, the plan differs: %v\n%s", err, once[plan.RootFile])
		}
	})
}

func checkProblems(t *testing.T, p *plan.Plan, files map[string][]byte) {
	t.Helper()
	for i, problem := range p.Problems {
		if i > 0 && p.Problems[i-1].At.Compare(problem.At) > 0 {
			t.Errorf("not sorted: %v", problem)
		}
		if problem.What == "" || problem.Rule == "" {
			t.Errorf("says nothing: %#v", problem)
		}
		checkPlace(t, problem.At, files)
		if !problem.Also.IsZero() {
			checkPlace(t, problem.Also, files)
		}
	}
}

// checkPlace fails where the file has no such line or column. A place may be
// that of the line end, where a value is missing.
func checkPlace(t *testing.T, at plan.Place, files map[string][]byte) {
	t.Helper()
	if at.Line == 0 && files[at.File] != nil {
		return
	}
	text := bytes.TrimPrefix(files[at.File], []byte("\ufeff"))
	lines := bytes.Split(text, []byte("\n"))
	if at.Line < 1 || int(at.Line) > len(lines) || at.Col < 1 || int(at.Col) > 1+utf8.RuneCount(lines[at.Line-1]) {
		t.Errorf("there is no place %v in\n%s", at, text)
	}
}

// No plan makes Expand panic; it gives the same whenever it is asked, and
// whatever the order in which the file says it.
func FuzzExpand(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, yaml, csv []byte) {
		files := map[string][]byte{plan.RootFile: yaml, plan.OperatorsFile: csv}
		p, err := plan.Load(context.Background(), plantest.FS(files))
		if err != nil {
			t.Fatal(err)
		}
		x := plan.Expand(p)
		if got, want := sketch(plan.Expand(p), true), sketch(x, true); got != want {
			t.Fatalf("expanded twice:\n%s\nand\n%s", got, want)
		}
		checkExpansion(t, x)
	})
}

// checkExpansion holds what is true of every expansion.
func checkExpansion(t *testing.T, x *plan.Expansion) {
	t.Helper()
	for _, c := range x.Channels {
		if found, ok := x.Find(c.Name); !ok || found != c {
			t.Errorf("channel %s is not found by its name", c.Name)
		}
		if !slices.Contains(x.OnPath(c.Path), c) {
			t.Errorf("channel %s is not found on its talk path", c.Name)
		}
		if len(c.Because) == 0 || c.At.IsZero() || c.Label == "" {
			t.Errorf("channel %s has no cause, place or label", c.Name)
		}
	}
	for _, z := range x.Zones {
		checkMembers(t, x, z.Members)
	}
	for _, s := range x.ScanLists {
		checkMembers(t, x, s.Members)
	}
	for _, fit := range x.Fits {
		if len(fit.Uses) != int(plan.LimitCount) || fit.Uses[plan.LimitChannels].Used != len(fit.Channels) {
			t.Errorf("radio %s counts wrong", fit.Radio.Key.V)
		}
	}
}

func checkMembers(t *testing.T, x *plan.Expansion, members []plan.Member) {
	t.Helper()
	seen := make(map[*plan.Channel]bool)
	for _, m := range members {
		if found, ok := x.Find(m.Channel.Name); !ok || found != m.Channel || seen[m.Channel] || m.At.IsZero() {
			t.Errorf("%s is no channel, stands there twice or nowhere", m.Channel.Name)
		}
		seen[m.Channel] = true
	}
}

// No text of a neighbor list or of separation rows makes Load panic, and a list without a
// problem is written and read back as it is.
func FuzzTables(f *testing.F) {
	f.Add([]byte("callsign,label,output,split\nN0QRX,Knob,146.94,-0.6\nN0QRX,Knob,146.94,-0.6\n"), []byte(plan.SeparationColumns+"\nours,2m,0,60 mi,any,us,read,\n"))
	f.Add([]byte("split,output,input,lat,lon,date\n+5,444.1,449.1,40,-104,2026-03-01\n,0.1,,,,\n"), []byte("# none\n"))
	f.Add([]byte("output\n\"146.\n94\"\n"), []byte("region\n"))
	f.Fuzz(func(t *testing.T, neighbors, separation []byte) {
		files := map[string][]byte{plan.RootFile: []byte("plan: P\nneighbors: neighbors.csv\n"), plan.NeighborsFile: neighbors, plan.SeparationFile: separation}
		p := plantest.Load(t, files)
		checkProblems(t, p, files)
		if len(p.Problems) > 0 {
			return
		}
		written, err := plan.Files(p)
		if err != nil {
			t.Fatal(err)
		}
		again := plantest.Load(t, written)
		if diff := plantest.Equal(p, again); diff != "" || len(again.Problems) > 0 {
			t.Fatalf("%s %v\n%s\n%s", diff, again.Problems, written[plan.NeighborsFile], written[plan.SeparationFile])
		}
	})
}
