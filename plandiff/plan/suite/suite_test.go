package suite

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	_ "github.com/goccy/go-yaml" // whose module has the suite
	"gopkg.in/yaml.v3"

	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/tree"
	"passband.example/plandiff/rewrite/layout"
)

// suite gives the texts by their names.
func suite(t *testing.T) map[string]string {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/goccy/go-yaml").Output()
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(strings.TrimSpace(string(dir)), "testdata", "yaml-test-suite", "*", "in.yaml"))
	if err != nil || len(files) < 300 {
		t.Fatalf("%d texts: %v", len(files), err)
	}
	texts := make(map[string]string)
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(filepath.Dir(file))] = string(text)
	}
	return texts
}

// What the tree says of a text is what yaml.v3 says of it: the same values in the same order, or
// neither reads it.
func TestTreeIsThatOfYAML(t *testing.T) {
	read := 0
	for name, text := range suite(t) {
		want, wrong := decode(text)
		got, err := tree.Parse(text, 1)
		if (err == nil) != (wrong == nil) {
			t.Errorf("%s: yaml.v3 says %v, and the tree %v\n%s", name, wrong, err, text)
			continue
		}
		if err != nil || len(want.Content) == 0 {
			continue
		}
		read++
		if differ(got.Root(), want.Content[0]) {
			t.Errorf("%s: the tree is another\n%s", name, text)
		}
	}
	if read < 200 {
		t.Errorf("only %d texts were read", read)
	}
}

// decode gives the first document of a text. The second must be YAML too, as a plan is looked at for one.
func decode(text string) (first yaml.Node, err error) {
	documents := yaml.NewDecoder(strings.NewReader(text))
	var second yaml.Node
	for _, into := range []*yaml.Node{&first, &second} {
		if err = documents.Decode(into); err != nil {
			break
		}
	}
	if errors.Is(err, io.EOF) {
		err = nil
	}
	return first, err
}

// differ reports whether a node of the tree is not that of yaml.v3.
func differ(n tree.Node, want *yaml.Node) bool {
	kind := map[yaml.Kind]tree.Kind{yaml.ScalarNode: tree.Scalar, yaml.MappingNode: tree.Mapping, yaml.SequenceNode: tree.Sequence, yaml.AliasNode: tree.Alias}[want.Kind]
	if n.Kind() != kind || kind == tree.Scalar && n.Value() != want.Value {
		return true
	}
	if kind == tree.Alias {
		return false
	}
	i := 0
	for item := range n.Items() {
		if i >= len(want.Content) || differ(item, want.Content[i]) {
			return true
		}
		i++
	}
	return i != len(want.Content)
}

// A text of the suite is no plan. Each is read to the end of its problems, which have a place, is laid
// out without losing a byte, and is merged with itself to itself.
func TestPlansAreRefusedKindly(t *testing.T) {
	for name, text := range suite(t) {
		files := fstest.MapFS{"plan.yaml": {Data: []byte("plan: X\n")}, "other.yaml": {Data: []byte(text)}}
		p, err := plan.Load(context.Background(), files)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, problem := range p.Problems {
			if problem.At.File == "" || problem.Error() == "" {
				t.Errorf("%s: a problem without a place or a word: %+v", name, problem)
			}
		}
		plan.Expand(p)
		if d, err := layout.Parse([]byte(text)); err == nil && !bytes.Equal(d.Bytes(), []byte(text)) {
			t.Errorf("%s: the layout loses bytes", name)
		}
		same := map[string][]byte{"plan.yaml": []byte("plan: X\n"), "other.yaml": []byte(text)}
		if r, err := merge.Plans(same, same, same, merge.Labels{}); err == nil && !bytes.Equal(r.Files["other.yaml"], []byte(text)) {
			t.Errorf("%s: merged with itself it is another", name)
		}
	}
}
