package plan_test

import (
	"context"
	"fmt"
	"io/fs"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// sameAsLoad holds Compose against Load: the same plan, places and problems, and
// again after the files were part of a plan before.
func sameAsLoad(t interface {
	Helper()
	Fatalf(string, ...any)
}, fsys fs.FS) {
	t.Helper()
	loaded, err := plan.Load(context.Background(), fsys)
	names, refused, errFind := plan.FindFiles(fsys)
	if fmt.Sprint(err) != fmt.Sprint(errFind) {
		t.Fatalf("Load says %v, FindFiles %v", err, errFind)
	}
	if err != nil {
		return
	}
	var files []*plan.File
	for i := range names {
		name := names[len(names)-1-i] // their order means nothing
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			t.Fatalf("%v", err)
		}
		files = append(files, plan.ParseFile(name, data))
	}
	for range 2 {
		composed := plan.Compose(refused, files...)
		if !reflect.DeepEqual(loaded.Problems, composed.Problems) {
			t.Fatalf("Load tells\n%v\nand Compose\n%v", loaded.Problems, composed.Problems)
		}
		if !reflect.DeepEqual(loaded, composed) {
			t.Fatalf("Compose makes another plan: %s", plantest.Equal(loaded, composed))
		}
	}
}

// Plans cut into files, with faults put in, are composed as they are loaded.
func TestComposeIsLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := make(fstest.MapFS)
		for i := range rapid.IntRange(1, 4).Draw(t, "files") {
			for name, data := range written(t, plantest.Plan(t)) {
				if i > 0 {
					name = fmt.Sprintf("part-%d/%s", i, strings.Replace(name, plan.RootFile, "more.yaml", 1))
				}
				files[name] = &fstest.MapFile{Data: spoiled(t, data)}
			}
		}
		sameAsLoad(t, files)
	})
}

// spoiled puts something into a text that may be a fault there.
func spoiled(t *rapid.T, data []byte) []byte {
	if rapid.IntRange(0, 2).Draw(t, "whole") > 0 {
		return data
	}
	at := rapid.IntRange(0, len(data)).Draw(t, "at")
	what := rapid.SampledFrom([]string{"\n", ": ", "&a ", "*a", "x", "\x00", "\xff", "'", "\"", "- ", "{", "]", ",", "\t", "!"}).Draw(t, "fault")
	return append(append(append([]byte{}, data[:at]...), what...), data[at:]...)
}

func TestComposeIsLoadOfTheCorpus(t *testing.T) {
	names, err := filepath.Glob("testdata/load/*.txtar")
	if err != nil || len(names) == 0 {
		t.Fatalf("no archives: %v", err)
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			files := make(map[string][]byte)
			for _, f := range archive.Files {
				files[f.Name] = f.Data
			}
			sameAsLoad(t, plantest.FS(files))
		})
	}
}

// What counts over all files together counts in a composed plan too.
func TestComposeCountsOverAllFiles(t *testing.T) {
	root := "plan: x\n"
	tests := []struct{ name, why, a, b string }{
		{"the same key", "the second is a duplicate, whatever file it stands in", "groups: {a: {id: 1}}", "groups: {a: {id: 2}}"},
		{"the same person", "rows that say the same are told apart by a number", "", ""},
		{"the same acceptance thrice", "each is a duplicate of the first", "review: {accept: [{rule: x, at: a}]}", "review: {accept: [{rule: x, at: a}, {rule: x, at: a}]}"},
		{"a split to nowhere", "it is judged when the plan is whole", "repeaters: {a: {output: 1, split: -5}}", "repeaters: {a: {output: 1, split: -6}}"},
		{"aliases", "the bound is for the plan: the second file passes it", manyAliases("a", 15_000), manyAliases("b", 15_000)},
		{"values", "the bound is for the plan: the second file is refused", strings.Repeat("\n", 2_000_000), strings.Repeat(",", 1_500_000)},
		{"header elsewhere", "it belongs into plan.yaml alone", "plan: y", "edition: 2026"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			files := map[string][]byte{plan.RootFile: []byte(root), "a.yaml": []byte(tt.a), "b.yaml": []byte(tt.b)}
			if tt.name == "the same person" {
				files = map[string][]byte{plan.RootFile: []byte(root),
					"a/operators.csv": []byte("id,callsign\n9990001,N0QRV\n9990001,N0QRV\n"), "operators.csv": []byte("id,callsign\n9990001,N0QRV\n")}
			}
			sameAsLoad(t, plantest.FS(files))
		})
	}
}

// manyAliases is a file that reaches several nodes through each of n aliases.
func manyAliases(prefix string, n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "channels:\n  %s: &a {fm: {}, label: A}\n", prefix)
	for i := range n {
		fmt.Fprintf(&b, "  %s%d: *a\n", prefix, i)
	}
	return b.String()
}

// FuzzCompose holds Compose against Load on any two files.
func FuzzCompose(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, yaml, csv []byte) {
		sameAsLoad(t, plantest.FS(map[string][]byte{plan.RootFile: yaml, plan.OperatorsFile: csv, "more/copy.yaml": yaml}))
	})
}
