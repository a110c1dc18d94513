package plan

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// Files writes a plan as text: plan.yaml with every section, and the tables that
// have rows. Load reads the same plan from it. Keys stand in the order of the model, records in
// that of their keys; comments are not kept.
func Files(p *Plan) (map[string][]byte, error) {
	top := mappingNode()
	var review *yaml.Node
	for _, s := range sections() {
		switch {
		case s.Kind == KindPlan:
			top.Content = append(top.Content, recordNode(s, &p.Header).Content...)
		case s.Key == "" || len(s.all(p)) == 0:
		case s.under != "":
			if review == nil {
				review = mappingNode()
			}
			put(review, s.Key, sectionNode(s, p))
		default:
			put(top, s.Key, sectionNode(s, p))
		}
	}
	if review != nil {
		put(top, "review", review)
	}
	var buf bytes.Buffer
	enc := yaml.NewEncoder(&buf)
	enc.SetIndent(2)
	if err := enc.Encode(top); err != nil {
		return nil, fmt.Errorf("writing %s: %w", RootFile, err)
	}
	files := map[string][]byte{RootFile: buf.Bytes()}
	for _, s := range sections() {
		if s.file != "" && len(s.all(p)) > 0 {
			files[fileOf(s, p)] = tableCSV(s, p)
		}
	}
	return files, nil
}

func sectionNode(s *Section, p *Plan) *yaml.Node {
	records := s.all(p)
	slices.SortFunc(records, func(a, b Record) int { return strings.Compare(a.Thing().Key, b.Thing().Key) })
	if s.listed {
		n := &yaml.Node{Kind: yaml.SequenceNode}
		for _, r := range records {
			n.Content = append(n.Content, recordNode(s, r))
		}
		return n
	}
	n := mappingNode()
	for _, r := range records {
		value := recordNode(s, r)
		if s.value != "" {
			value = value.Content[1]
		}
		put(n, r.Thing().Key, value)
	}
	return n
}

// recordNode writes a record as a mapping, with blocks for dotted names.
func recordNode(s *Section, r Record) *yaml.Node {
	n := mappingNode()
	for i := range s.Fields {
		f := &s.Fields[i]
		items := f.items
		if f.written != nil {
			items = f.written
		}
		values := items(r)
		if len(values) == 0 {
			continue
		}
		parts := strings.Split(f.Name, ".")
		at := n
		for _, part := range parts[:len(parts)-1] {
			at = inside(at, part)
		}
		last := parts[len(parts)-1]
		if f.Form == Flag {
			inside(at, last)
			continue
		}
		put(at, last, valueNode(f, values))
	}
	return n
}

func valueNode(f *Field, items []Item) *yaml.Node {
	if f.Form == Scalar {
		return textNode(items[0].Text)
	}
	n := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
	for _, item := range items {
		n.Content = append(n.Content, textNode(item.Text))
	}
	return n
}

// textNode writes a text so that it is read back as it is.
func textNode(text string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.ScalarNode, Value: text}
	if strings.TrimLeft(text, "0123456789.+-/") != "" || text == "" {
		n.Tag = "!!str" // the encoder quotes it where it would mean something else
	}
	if strings.Contains(text, "\n") {
		n.Style = yaml.DoubleQuotedStyle
		if staysAsBlock(text) {
			n.Style = yaml.LiteralStyle
		}
	}
	return n
}

// staysAsBlock reports whether a text of several lines can be written under a |
// and read back as it is: the encoder loses blanks at the edges of one.
func staysAsBlock(text string) bool {
	if strings.TrimSpace(text) != text {
		return false
	}
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimSpace(line) != line {
			return false
		}
	}
	return true
}

func mappingNode() *yaml.Node { return &yaml.Node{Kind: yaml.MappingNode} }

func put(n *yaml.Node, key string, value *yaml.Node) {
	n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: key}, value)
}

// inside gives the block of n with this key, making it where there is none.
func inside(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	block := mappingNode()
	block.Style = yaml.FlowStyle
	put(n, key, block)
	return block
}
