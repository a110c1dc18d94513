package tree

import (
	"errors"
	"io"
	"strings"

	"gopkg.in/yaml.v3"
)

// ErrMalformed says that a text is not YAML, where the reader cannot say more.
var ErrMalformed = errors.New("the text is not YAML")

// Parse reads the first document of a text whose first line has the number line. The
// error is that of yaml.v3, or ErrMalformed. The tree keeps the text in memory.
func Parse(text string, line int) (*Tree, error) {
	if t, ok := scan(text, line); ok {
		return t, nil
	}
	return slow(text, line)
}

// slow reads a text with yaml.v3.
func slow(text string, line int) (t *Tree, err error) {
	defer func() {
		if r := recover(); r != nil { // yaml.v3 panics on a few malformed texts
			t, err = nil, ErrMalformed
		}
	}()
	dec := yaml.NewDecoder(strings.NewReader(text))
	c := &converter{tree: new(Tree), above: line - 1}
	var doc, next yaml.Node
	switch err := dec.Decode(&doc); {
	case errors.Is(err, io.EOF):
		return c.tree, nil
	case err != nil:
		return nil, err
	}
	switch err := dec.Decode(&next); {
	case err == nil:
		c.tree.second = c.mark(&next)
	case !errors.Is(err, io.EOF):
		return nil, err
	}
	for _, n := range doc.Content {
		c.add(n)
	}
	return c.tree, nil
}

// A converter makes the tree of the nodes of yaml.v3.
type converter struct {
	tree  *Tree
	above int // lines above the text
	known map[*yaml.Node]int32
}

func (c *converter) mark(n *yaml.Node) Mark {
	return Mark{int32(n.Line + c.above), int32(n.Column)}
}

var kindOf = [...]Kind{yaml.ScalarNode: Scalar, yaml.MappingNode: Mapping, yaml.SequenceNode: Sequence, yaml.AliasNode: Alias}

// add puts a node and those inside it into the tree. What an alias stands for began
// before the alias, so it is there already.
func (c *converter) add(n *yaml.Node) {
	t, at, mark := c.tree, int32(len(c.tree.nodes)), c.mark(n)
	t.nodes = append(t.nodes, node{
		value: n.Value, line: mark.Line, column: mark.Column, kind: kindOf[n.Kind],
	})
	note := func(is bool, q quality) {
		if is {
			t.nodes[at].is |= q
		}
	}
	note(n.Tag == "!!null", null)
	note(n.Tag == "!!merge", merge)
	note(n.Anchor != "", anchored)
	note(n.Style&yaml.FlowStyle != 0, flow)
	if n.Style&yaml.TaggedStyle != 0 {
		if t.tags == nil {
			t.tags = make(map[int32]string)
		}
		t.tags[at] = n.Tag
	}
	if n.Anchor != "" {
		if c.known == nil {
			c.known = make(map[*yaml.Node]int32)
		}
		c.known[n] = at
	}
	if n.Kind == yaml.AliasNode {
		if t.targets == nil {
			t.targets = make(map[int32]int32)
		}
		t.targets[at] = c.known[n.Alias]
	}
	for _, inner := range n.Content {
		c.add(inner)
	}
	t.nodes[at].end = int32(len(t.nodes))
}
