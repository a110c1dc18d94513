package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"pgregory.net/rapid"
)

// The order of keys in a mapping means nothing, nor does the file that a record
// stands in: neither changes what a plan expands to, or how it is written.
func TestOrderMeansNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files := written(t, plantest.Plan(t))
		p, q := plantest.Load(t, files), plantest.Load(t, shuffled(t, files))
		if len(q.Problems) > 0 {
			t.Fatal(q.Problems)
		}
		if diff := plantest.Equal(p, q); diff != "" {
			t.Fatal(diff)
		}
		if a, b := sketch(plan.Expand(p), false), sketch(plan.Expand(q), false); sorted(a) != sorted(b) {
			t.Fatalf("%s\nand shuffled\n%s", a, b)
		}
		if a, b := written(t, p), written(t, q); fmt.Sprintf("%s", a) != fmt.Sprintf("%s", b) {
			t.Fatalf("%s\nand shuffled\n%s", a, b)
		}
	})
}

// A plan that is written and read again is the same to the letter, not just in
// meaning, and expands to the same.
func TestFilesAreRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Edit(t, plantest.Plan(t))
		files := written(t, p)
		q := plantest.Load(t, files)
		if diff := plantest.Equal(p, q); diff != "" || len(q.Problems) > 0 {
			t.Fatalf("%s %v\n%s", diff, q.Problems, files["plan.yaml"])
		}
		if a, b := written(t, q), files; fmt.Sprintf("%s", a) != fmt.Sprintf("%s", b) {
			t.Fatalf("%s\nand again\n%s", b, a)
		}
		if a, b := sketch(plan.Expand(p), false), sketch(plan.Expand(q), false); sorted(a) != sorted(b) {
			t.Fatalf("%s\nand read\n%s", a, b)
		}
	})
}

// A clone means the same as its original in every field, and is its own.
func TestClone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Load(t, written(t, plantest.Plan(t)))
		for _, s := range plan.Sections() {
			for _, r := range s.All(p) {
				c := plan.Clone(r)
				for _, f := range s.Fields {
					if !f.Same(r, c) || !f.Same(c, r) {
						t.Fatalf("%s: %s is %v and in the clone %v", r.Thing(), f.Name, f.Items(r), f.Items(c))
					}
				}
				if c.Thing() != r.Thing() || c.Place() != r.Place() {
					t.Fatalf("%s at %v is cloned as %s at %v", r.Thing(), r.Place(), c.Thing(), c.Place())
				}
			}
		}
	})
}

// Every field can be set to what Items gives, and taken away.
func TestSetItems(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t)
		for _, s := range plan.Sections() {
			for _, r := range s.All(p) {
				for _, f := range s.Fields {
					c := plan.Clone(r)
					texts := f.Texts(c, nil)
					if len(texts) == 0 {
						continue
					}
					if err := f.Set(c, texts); err != nil || !f.Same(r, c) {
						t.Fatalf("%s: %s set to %q: %v", r.Thing(), f.Name, texts, err)
					}
				}
			}
		}
	})
}

func written(t *rapid.T, p *plan.Plan) map[string][]byte {
	files, err := plan.Files(p)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// shuffled gives plan.yaml with the keys of every mapping in another order, and
// its sections cut into several files.
func shuffled(t *rapid.T, files map[string][]byte) map[string][]byte {
	var doc yaml.Node
	if err := yaml.Unmarshal(files["plan.yaml"], &doc); err != nil {
		t.Fatal(err)
	}
	root := doc.Content[0]
	shuffle(t, root)
	cut := map[string]*yaml.Node{}
	for i := 0; i < len(root.Content); i += 2 {
		key, value := root.Content[i], root.Content[i+1]
		if value.Kind != yaml.MappingNode || key.Value == "review" {
			put(cut, "plan.yaml", key, value)
			continue
		}
		for j := 0; j < len(value.Content); j += 2 {
			name := rapid.SampledFrom([]string{"plan.yaml", "a/x.yaml", "z.yml"}).Draw(t, "file") + " " + key.Value
			put(cut, name, value.Content[j], value.Content[j+1])
		}
	}
	out := map[string][]byte{"plan.yaml": nil, "deep/operators.csv": files["operators.csv"], "license.csv": files["license.csv"], "separation.csv": files["separation.csv"]}
	for name, text := range files { // wherever the plan has its neighbor list
		if strings.HasSuffix(name, plan.NeighborsFile) {
			out["away/"+plan.NeighborsFile] = text
		}
	}
	for _, file := range []string{"plan.yaml", "a/x.yaml", "z.yml"} {
		whole := &yaml.Node{Kind: yaml.MappingNode}
		if n := cut["plan.yaml"]; n != nil && file == "plan.yaml" {
			whole.Content = append(whole.Content, n.Content...)
		}
		for _, s := range plan.Sections() {
			if n := cut[file+" "+s.Key]; s.Key != "" && n != nil {
				whole.Content = append(whole.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: s.Key}, n)
			}
		}
		text, err := yaml.Marshal(whole)
		if err != nil {
			t.Fatal(err)
		}
		out[file] = text
	}
	return out
}

func put(cut map[string]*yaml.Node, name string, key, value *yaml.Node) {
	if cut[name] == nil {
		cut[name] = &yaml.Node{Kind: yaml.MappingNode}
	}
	cut[name].Content = append(cut[name].Content, key, value)
}

func shuffle(t *rapid.T, n *yaml.Node) {
	for _, child := range n.Content {
		shuffle(t, child)
	}
	if n.Tag == "!!merge" { // a label <<, which the encoder would write with its tag
		n.Tag, n.Style = "!!str", yaml.DoubleQuotedStyle
	}
	if n.Kind != yaml.MappingNode {
		return
	}
	pairs := make([]int, len(n.Content)/2)
	for i := range pairs {
		pairs[i] = 2 * i
	}
	var content []*yaml.Node
	for _, i := range rapid.Permutation(pairs).Draw(t, "order") {
		content = append(content, n.Content[i], n.Content[i+1])
	}
	n.Content = content
}
