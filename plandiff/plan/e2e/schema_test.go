package e2e

import (
	"bytes"
	"context"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"golang.org/x/tools/txtar"
	"gopkg.in/yaml.v3"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/start"
	"pgregory.net/rapid"
)

// compiled gives the schema, which compiling holds against its meta-schema, draft-07.
func compiled(t testing.TB) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(plan.JSONSchema()))
	if err != nil {
		t.Fatal(err)
	}
	if dialect := doc.(map[string]any)["$schema"]; dialect != plan.SchemaDialect {
		t.Fatalf("the dialect is %v", dialect)
	}
	c := jsonschema.NewCompiler()
	meta, err := c.Compile(plan.SchemaDialect)
	if err != nil {
		t.Fatal(err)
	}
	if err := meta.Validate(doc); err != nil {
		t.Fatalf("it is no JSON Schema: %v", err)
	}
	if err := c.AddResource("plan.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("plan.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestSchemaAgreesWithLoad wants the schema and the loader to take or to refuse each file of
// the corpus alike, but for those that are named, each with its reason. A name that is not
// needed fails.
func TestSchemaAgreesWithLoad(t *testing.T) {
	schema, files := compiled(t), corpus(t)
	taken, refused, odd := 0, 0, 0
	used := map[string]bool{}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		data := files[name]
		load, byLoad := loads(t, name, data)
		valid, bySchema := validates(schema, data)
		if load == valid {
			if load {
				taken++
			} else {
				refused++
			}
			continue
		}
		if differences[name] == "" {
			t.Errorf("%s: loads %v, valid %v\n%s\n%s", name, load, valid, byLoad, bySchema)
			continue
		}
		odd++
		used[name] = true
	}
	for name, why := range differences {
		if !used[name] {
			t.Errorf("%s is named as a difference (%s), and is none, or no file of the corpus", name, why)
		}
	}
	t.Logf("%d files: both take %d and refuse %d; %d differ for a reason that is named", len(files), taken, refused, odd)
	if len(files) < 150 || taken < 50 || refused < 50 {
		t.Errorf("the corpus is too small: %d files, %d taken, %d refused", len(files), taken, refused)
	}
}

// loads reports whether a file is read without a problem, alone.
func loads(t *testing.T, name string, data []byte) (ok bool, why string) {
	t.Helper()
	files := fstest.MapFS{plan.RootFile: {Data: data}}
	if _, file, _ := strings.Cut(name, " "); path.Base(file[strings.LastIndex(file, " ")+1:]) != plan.RootFile {
		files = fstest.MapFS{plan.RootFile: {}, "part.yaml": {Data: data}}
	}
	p, err := plan.Load(context.Background(), files)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Problems) > 0 {
		return false, p.Problems[0].Error()
	}
	return true, ""
}

// validates reports whether an editor would find nothing wrong with a file.
func validates(schema *jsonschema.Schema, data []byte) (ok bool, why string) {
	var n yaml.Node
	if err := yaml.Unmarshal(bytes.TrimPrefix(data, []byte("\ufeff")), &n); err != nil {
		return false, err.Error()
	}
	if n.IsZero() {
		return true, "" // nothing stands in it
	}
	v, err := value(&n, 0)
	if err == nil {
		err = schema.Validate(v)
	}
	if err != nil {
		return false, err.Error()
	}
	return true, ""
}

// corpus gives the YAML files of the archives of all tests, of the demo's history and of
// the plan that start writes.
func corpus(t *testing.T) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	for _, pattern := range []string{
		"testdata/*.txtar", "../testdata/load/*.txtar", "../../../testdata/faults/*.txtar", "../../../review/rules/testdata/*/*.txtar",
	} {
		names, err := filepath.Glob(pattern)
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: no archives, %v", pattern, err)
		}
		for _, name := range names {
			archive, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range archive.Files {
				if isYAML(f.Name) {
					files[strings.TrimLeft(filepath.ToSlash(name), "./")+" "+f.Name] = f.Data
				}
			}
		}
	}
	for _, c := range demo.History() {
		add(t, files, "demo "+c.Name, c.Plan)
	}
	add(t, files, "start", start.Plan())
	return files
}

// TestSchemaTakesEveryPlan wants what passband itself writes to be valid.
func TestSchemaTakesEveryPlan(t *testing.T) {
	schema := compiled(t)
	rapid.Check(t, func(t *rapid.T) {
		files, err := plan.Files(plantest.Plan(t))
		if err != nil {
			t.Fatal(err)
		}
		if ok, why := validates(schema, files[plan.RootFile]); !ok {
			t.Fatalf("%s\n%s", why, files[plan.RootFile])
		}
	})
}

func isYAML(name string) bool {
	return strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml")
}

func add(t *testing.T, files map[string][]byte, from string, fsys fs.FS) {
	t.Helper()
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !isYAML(name) {
			return err
		}
		files[from+" "+name], err = fs.ReadFile(fsys, name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
