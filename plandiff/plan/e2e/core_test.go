package e2e

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// What a plain scalar is in the core schema of YAML 1.2.2, section 10.3.2: editors read
// plans so, and not by the older rules.
var (
	coreNull  = regexp.MustCompile(`^(?:null|Null|NULL|~|)$`)
	coreTruth = regexp.MustCompile(`^(?:true|True|TRUE|false|False|FALSE)$`)
	coreInt   = regexp.MustCompile(`^[-+]?[0-9]+$`)
	coreFloat = regexp.MustCompile(`^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$`)
)

// value gives the JSON value that an editor sees in a YAML node.
func value(n *yaml.Node, depth int) (any, error) {
	if depth > 60 {
		return nil, fmt.Errorf("too deep")
	}
	switch n.Kind {
	case yaml.DocumentNode:
		return value(n.Content[0], depth+1)
	case yaml.AliasNode:
		return value(n.Alias, depth+1)
	case yaml.SequenceNode:
		items := []any{}
		for _, c := range n.Content {
			v, err := value(c, depth+1)
			if err != nil {
				return nil, err
			}
			items = append(items, v)
		}
		return items, nil
	case yaml.MappingNode:
		pairs := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			v, err := value(n.Content[i+1], depth+1)
			if err != nil {
				return nil, err
			}
			pairs[n.Content[i].Value] = v
		}
		return pairs, nil
	}
	return scalar(n), nil
}

func scalar(n *yaml.Node) any {
	text := n.Value
	switch {
	case n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return text
	case coreNull.MatchString(text):
		return nil
	case coreTruth.MatchString(text):
		return strings.EqualFold(text, "true")
	case coreInt.MatchString(text), coreFloat.MatchString(text):
		return json.Number(jsonNumber(text))
	}
	return text
}

// jsonNumber writes a number of YAML as JSON has it: no plus, no zeros before it.
func jsonNumber(text string) string {
	text = strings.TrimPrefix(text, "+")
	mark := ""
	if rest, minus := strings.CutPrefix(text, "-"); minus {
		mark, text = "-", rest
	}
	text = strings.TrimLeft(text, "0")
	if text == "" || text[0] < '0' || '9' < text[0] {
		text = "0" + text
	}
	return mark + strings.TrimSuffix(strings.Replace(text, ".e", "e", 1), ".")
}

// TestCore holds the reading against the examples of YAML 1.2.2, 10.3.2, and this module's own.
func TestCore(t *testing.T) {
	for _, tt := range []struct{ text, want, why string }{
		{"A null: null", `{"A null":null}`, "the specification's example"}, {"Booleans: [ true, True, false, FALSE ]", `{"Booleans":[true,true,false,false]}`, "the specification's example"},
		{"Integers: [ 0, -19 ]", `{"Integers":[0,-19]}`, "the specification's example"}, {"Floats: [ 0., -0.0, .5, +12e03, -2E+05 ]", `{"Floats":[0,-0.0,0.5,12e03,-2E+05]}`, "the specification's example"},
		{"a: [yes, 2027-06-01, +5, 007, '1', 146:52]", `{"a":["yes","2027-06-01",5,7,"1","146:52"]}`, "no older rule"},
	} {
		var n yaml.Node
		if err := yaml.Unmarshal([]byte(tt.text), &n); err != nil {
			t.Fatal(err)
		}
		v, err := value(&n, 0)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := json.Marshal(v); err != nil || string(got) != tt.want {
			t.Errorf("%s (%s): %s %v", tt.text, tt.why, got, err)
		}
	}
}
