package workflows

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/rhysd/actionlint"
	"gopkg.in/yaml.v3"
)

// top is the top of passband's repository.
const top = "../../../.."

// TestWorkflows has actionlint look at the example workflows and at those of the
// repository itself. It starts no other linter, and fetches nothing.
func TestWorkflows(t *testing.T) {
	var files []string
	for _, pattern := range []string{"action/examples/*.yml", ".github/workflows/*.yml"} {
		some, err := filepath.Glob(filepath.Join(top, pattern))
		if err != nil || len(some) == 0 {
			t.Fatalf("%s: %d files, %v", pattern, len(some), err)
		}
		files = append(files, some...)
	}
	for _, found := range lint(t, files...) {
		t.Error(found)
	}
	bad := filepath.Join(t.TempDir(), "bad.yml")
	if err := os.WriteFile(bad, []byte("on: pull_requests\njobs:\n  a:\n    runs-on: ubuntu-latest\n    steps:\n      - run: echo ${{ github.event.pull_request.title }}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if n := len(lint(t, bad)); n < 2 {
		t.Errorf("a workflow with an unknown event and a stranger's text in a script has %d faults", n)
	}
}

func lint(t *testing.T, files ...string) []*actionlint.Error {
	t.Helper()
	linter, err := actionlint.NewLinter(io.Discard, &actionlint.LinterOptions{})
	if err != nil {
		t.Fatal(err)
	}
	found, err := linter.LintFiles(files, nil)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// TestInputsOfTheAction has actionlint hold the use of the action, as a workflow of this
// repository would have it, against action.yml.
func TestInputsOfTheAction(t *testing.T) {
	whole, err := filepath.Abs(top)
	if err != nil {
		t.Fatal(err)
	}
	for with, faults := range map[string]int{"{plan: east, post: \"no\", most: 3, sarif: found}": 0, "{plans: east}": 1} {
		linter, err := actionlint.NewLinter(io.Discard, &actionlint.LinterOptions{WorkingDir: whole})
		if err != nil {
			t.Fatal(err)
		}
		workflow := fmt.Sprintf("on: pull_request\njobs:\n  a:\n    runs-on: ubuntu-latest\n    steps:\n      - id: r\n        uses: ./action\n        with: %s\n      - run: echo \"$V\"\n        env: {V: \"${{ steps.r.outputs.verdict }}\"}\n", with)
		project, err := actionlint.NewProject(whole)
		if err != nil {
			t.Fatal(err)
		}
		found, err := linter.Lint(filepath.Join(whole, ".github/workflows/a.yml"), []byte(workflow), project)
		if err != nil || len(found) != faults {
			t.Errorf("%s: %v, %v", with, found, err)
		}
	}
}

// A grammar is GitHub's own of action.yml, by the names of its definitions.
type grammar map[string]definition

type definition struct {
	String *struct {
		RequireNonEmpty bool `json:"require-non-empty"`
	} `json:"string"`
	Boolean  *struct{} `json:"boolean"`
	Allowed  []string  `json:"allowed-values"`
	OneOf    []string  `json:"one-of"`
	Sequence *struct {
		Item string `json:"item-type"`
	} `json:"sequence"`
	Mapping *struct {
		Properties map[string]property `json:"properties"`
		LooseValue string              `json:"loose-value-type"`
	} `json:"mapping"`
}

// A property is the name of a definition, or an object with it.
type property struct {
	Type     string `json:"type"`
	Required bool   `json:"required"`
}

func (p *property) UnmarshalJSON(text []byte) error {
	if text[0] == '"' {
		return json.Unmarshal(text, &p.Type)
	}
	type plain property
	return json.Unmarshal(text, (*plain)(p))
}

// hold holds a value against a definition.
func (g grammar) hold(name string, v any) error {
	d, known := g[name]
	switch {
	case name == "any", name == "string" && scalar(v), name == "boolean" && isBool(v):
		return nil
	case !known:
		return fmt.Errorf("%v is no %s", v, name)
	case d.String != nil:
		if !scalar(v) || d.String.RequireNonEmpty && v == "" {
			return fmt.Errorf("%v is no text", v)
		}
	case d.Boolean != nil && !isBool(v):
		return fmt.Errorf("%v is not true or false", v)
	case d.Allowed != nil && !slices.Contains(d.Allowed, fmt.Sprint(v)):
		return fmt.Errorf("%v is none of %v", v, d.Allowed)
	case d.OneOf != nil:
		return g.oneOf(d.OneOf, v)
	case d.Sequence != nil:
		return g.items(d.Sequence.Item, v)
	case d.Mapping != nil:
		return g.mapping(d.Mapping.Properties, d.Mapping.LooseValue, v)
	}
	return nil
}

func scalar(v any) bool {
	switch v.(type) {
	case string, bool, int, float64:
		return true
	}
	return false
}

func isBool(v any) bool { _, ok := v.(bool); return ok }

func (g grammar) oneOf(names []string, v any) error {
	var why []error
	for _, name := range names {
		err := g.hold(name, v)
		if err == nil {
			return nil
		}
		why = append(why, fmt.Errorf("as %s: %w", name, err))
	}
	return fmt.Errorf("it is none of them: %v", why)
}

func (g grammar) items(item string, v any) error {
	list, ok := v.([]any)
	if !ok {
		return fmt.Errorf("%v is no list", v)
	}
	for i, one := range list {
		if err := g.hold(item, one); err != nil {
			return fmt.Errorf("%d: %w", i, err)
		}
	}
	return nil
}

func (g grammar) mapping(properties map[string]property, loose string, v any) error {
	object, ok := v.(map[string]any)
	if !ok {
		return fmt.Errorf("%v is no mapping", v)
	}
	for key, p := range properties {
		if _, there := object[key]; p.Required && !there {
			return fmt.Errorf("there is no %s", key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(object)) {
		p, known := properties[key]
		if !known {
			if p.Type = loose; loose == "" {
				return fmt.Errorf("%s is not known", key)
			}
		}
		if err := g.hold(p.Type, object[key]); err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
	}
	return nil
}

// TestActionFiles holds both actions against GitHub's own grammar of action.yml, which
// finds what actionlint does not look at, and wants it to refuse what it should.
func TestActionFiles(t *testing.T) {
	text, err := os.ReadFile("testdata/action.json")
	if err != nil {
		t.Fatal(err)
	}
	var g struct{ Definitions grammar }
	if err := json.Unmarshal(text, &g); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"action/action.yml", "action/setup/action.yml"} {
		text, err := os.ReadFile(filepath.Join(top, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := g.Definitions.hold("action-root-strict", read(t, string(text))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for why, text := range map[string]string{
		"no shell":        "{name: a, description: b, runs: {using: composite, steps: [{run: x}]}}",
		"no name":         "{description: b, runs: {using: composite, steps: []}}",
		"an unknown key":  "{name: a, description: b, input: {}, runs: {using: composite, steps: []}}",
		"another runtime": "{name: a, description: b, runs: {using: composed, steps: []}}",
		"steps of a word": "{name: a, description: b, runs: {using: composite, steps: x}}",
	} {
		if g.Definitions.hold("action-root-strict", read(t, text)) == nil {
			t.Errorf("the grammar takes %s", why)
		}
	}
}

func read(t *testing.T, text string) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}
