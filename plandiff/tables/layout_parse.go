package tables

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
	"passband.example/plandiff/plan"
)

// ParseLayout reads a layout. name is for the places of what is wrong with it, all of
// which is told at once: the error is a Failure whose parts are plan.Problems.
func ParseLayout(name string, data []byte) (*Layout, error) {
	p := &parser{file: name, layout: &Layout{Encoding: UTF8, Separator: ','}}
	if len(data) > MaxLayoutSize {
		p.bad(plan.Place{File: name}, "this layout is larger than 1 MB", "a layout has a line a column; look whether it is the right file")
	} else if root := p.decode(data); root != nil {
		p.top(root)
	}
	if len(p.problems) > 0 {
		return nil, p.problems
	}
	return p.layout, nil
}

type parser struct {
	file     string
	layout   *Layout
	problems Failure
}

func (p *parser) bad(at plan.Place, what, fix string) {
	p.add(plan.Problem{Rule: plan.BadValue, At: at, What: what, Fix: fix})
}

func (p *parser) add(problem plan.Problem) {
	if len(p.problems) < MaxProblems {
		p.problems = append(p.problems, problem)
	}
}

func (p *parser) at(n *yaml.Node) plan.Place {
	return plan.Place{File: p.file, Line: int32(n.Line), Col: int32(n.Column)}
}

// decode reads the text as the files of a plan are read, and gives its mapping, or nil.
func (p *parser) decode(data []byte) *yaml.Node {
	for _, problem := range plan.Compose(nil, plan.ParseFile(p.file, data)).Problems {
		if problem.Rule == plan.BadSyntax || problem.Rule == plan.FileRefused || problem.Rule == plan.DuplicateKey {
			p.add(problem)
		}
	}
	if len(p.problems) > 0 {
		return nil
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil || len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		p.bad(plan.Place{File: p.file, Line: 1, Col: 1}, "this is no layout", `a layout begins with "layout:" and a name; "passband export --show-layout" prints one to begin with`)
		return nil
	}
	return doc.Content[0]
}

// keys hands each value of a mapping to the reader of its key.
func (p *parser) keys(n *yaml.Node, what string, read map[string]func(*yaml.Node)) {
	if n.Kind != yaml.MappingNode {
		p.bad(p.at(n), what+" is not a set of keys here", `write "key: value" lines`)
		return
	}
	known := make([]string, 0, len(read))
	for key := range read {
		known = append(known, key)
	}
	seen := make(map[string]bool)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		take, ok := read[key.Value]
		switch {
		case key.Kind != yaml.ScalarNode || !ok:
			p.add(plan.Problem{Rule: plan.UnknownKey, At: p.at(key), What: fmt.Sprintf("%q is not a key of %s", clip(key.Value), what), Fix: hint(key.Value, known)})
		case seen[key.Value]:
			p.add(plan.Problem{Rule: plan.DuplicateKey, At: p.at(key), What: fmt.Sprintf("the key %q stands there twice", key.Value), Fix: "take one out"})
		default:
			seen[key.Value] = true
			take(n.Content[i+1])
		}
	}
}

// hint names the word that was most likely meant, or all that there are.
func hint(text string, known []string) string {
	if near := plan.Nearest(text, known); near != "" {
		return "did you mean " + near + "?"
	}
	return "write one of: " + strings.Join(sorted(known), ", ")
}

// text gives the text of a single value.
func (p *parser) text(n *yaml.Node, what string) string {
	if n.Kind != yaml.ScalarNode {
		p.bad(p.at(n), what+" needs a single value", "write one value behind the colon")
		return ""
	}
	return n.Value
}

// list hands each item of a list to take, at most so many.
func (p *parser) list(n *yaml.Node, what string, most int, take func(*yaml.Node)) {
	switch {
	case n.Kind != yaml.SequenceNode:
		p.bad(p.at(n), what+" needs a list", "begin each item with a hyphen")
	case len(n.Content) > most:
		p.bad(p.at(n), fmt.Sprintf("%s has %d items; the most that passband reads is %d", what, len(n.Content), most), "take some out")
	default:
		for _, item := range n.Content {
			take(item)
		}
	}
}

// choice reads one of a few words.
func (p *parser) choice(n *yaml.Node, what string, of ...string) (int, bool) {
	text := p.text(n, what)
	for i, word := range of {
		if text == word {
			return i, true
		}
	}
	p.bad(p.at(n), fmt.Sprintf("%q is no %s", clip(text), what), hint(text, of))
	return 0, false
}

func (p *parser) top(root *yaml.Node) {
	l := p.layout
	p.keys(root, "a layout", map[string]func(*yaml.Node){
		"layout": func(n *yaml.Node) { l.Name = p.text(n, "layout") },
		"note":   func(n *yaml.Node) { p.text(n, "note") },
		"encoding": func(n *yaml.Node) {
			if i, ok := p.choice(n, "encoding", encodings...); ok {
				l.Encoding, l.stated = Encoding(encodings[i]), true
			}
		},
		"separator": func(n *yaml.Node) {
			i, _ := p.choice(n, "separator", "comma", "semicolon", "tab")
			l.Separator = separators[i]
		},
		"decimal": func(n *yaml.Node) {
			i, _ := p.choice(n, "decimal", "point", "comma")
			l.Comma = i == 1
		},
		"line_end": func(n *yaml.Node) {
			i, _ := p.choice(n, "line_end", "crlf", "lf")
			l.LineFeed = i == 1
		},
		"tables": func(n *yaml.Node) { p.list(n, "tables", MaxTables, p.table) },
	})
	if len(l.Tables) == 0 && len(p.problems) == 0 {
		p.bad(p.at(root), "the layout has no tables", "write tables: and below it a file with its rows and columns")
	}
}

var separators = []rune{',', ';', '\t'}
