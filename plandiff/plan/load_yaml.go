package plan

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"gopkg.in/yaml.v3"
)

// maxAliased is how many nodes a plan may reach through aliases.
const maxAliased = 100_000

// readYAML reads one file into the plan.
func (l *loader) readYAML(data []byte) {
	doc, ok := l.decode(data)
	if !ok || len(doc.Content) == 0 {
		return
	}
	l.sizes = make(map[*yaml.Node]int)
	root := l.follow(doc.Content[0])
	if root == nil || isEmpty(root) {
		return
	}
	l.mapping(root, "a file of a plan", l.topKey)
}

// decode gives the document of a file, or false after noting why there is none.
func (l *loader) decode(data []byte) (doc *yaml.Node, ok bool) {
	defer func() {
		if r := recover(); r != nil { // yaml.v3 panics on a few malformed texts
			l.syntaxError(data, "")
			doc, ok = nil, false
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(data))
	doc = new(yaml.Node)
	switch err := dec.Decode(doc); {
	case errors.Is(err, io.EOF):
		return doc, true
	case err != nil:
		l.syntaxError(data, err.Error())
		return nil, false
	}
	var next yaml.Node
	switch err := dec.Decode(&next); {
	case err == nil:
		l.problem(BadSyntax, l.place(&next), "a second document begins here", "a file of a plan holds one document", "take out the line of three hyphens, or put the rest into another file")
	case !errors.Is(err, io.EOF):
		l.syntaxError(data, err.Error())
		return nil, false
	}
	return doc, true
}

// syntaxError notes why and where a text is not YAML.
func (l *loader) syntaxError(data []byte, message string) {
	f := explain(data, message)
	l.problem(BadSyntax, l.at(data, f.offset), f.what, "nothing in this file can be used until it is mended", f.fix)
}

func (l *loader) place(n *yaml.Node) Place {
	return Place{File: l.file, Line: int32(n.Line), Col: int32(n.Column)}
}

// follow gives the node that an alias stands for, or nil where a plan follows
// too many of them, or the node has a tag.
func (l *loader) follow(n *yaml.Node) *yaml.Node {
	for n.Kind == yaml.AliasNode {
		if !l.aliased(n, 1) {
			return nil
		}
		n = n.Alias
		if !l.aliased(n, l.size(n)) {
			return nil
		}
	}
	if l.tagged(n) {
		return nil
	}
	return n
}

// size counts the nodes inside n, but not what aliases in it stand for. What an
// anchor holds is counted once, however many aliases name it.
func (l *loader) size(n *yaml.Node) int {
	size, ok := l.sizes[n]
	if !ok {
		size = nodesIn(n)
		l.sizes[n] = size
	}
	return size
}

func nodesIn(n *yaml.Node) int {
	nodes := len(n.Content)
	for _, child := range n.Content {
		nodes += nodesIn(child)
	}
	return nodes
}

// tagged notes a tag, which could give a value another meaning than its text has.
func (l *loader) tagged(n *yaml.Node) bool {
	if n.Style&yaml.TaggedStyle == 0 {
		return false
	}
	l.bad(n, fmt.Sprintf("the tag %q is not read", clip(n.Tag)), "write the value alone, without what begins with !")
	return true
}

func isScalar(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode || n.Kind == yaml.AliasNode && n.Alias.Kind == yaml.ScalarNode
}

// isEmpty reports whether nothing stands where a value could: "zones:" alone, or ~.
func isEmpty(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}

func (l *loader) aliased(n *yaml.Node, nodes int) bool {
	if l.alias <= maxAliased && l.alias+nodes > maxAliased {
		l.problem(BadSyntax, l.place(n), "aliases (*) repeat more values than passband follows", "a few lines could otherwise stand for millions", "write the values out")
	}
	l.alias += nodes
	return l.alias <= maxAliased
}

// mapping hands each key and value of n to take, once each.
func (l *loader) mapping(n *yaml.Node, what string, take func(key, value *yaml.Node)) {
	at := n
	if n = l.follow(n); n == nil {
		return
	}
	switch {
	case isEmpty(n):
		return // a section with nothing in it yet
	case n.Kind != yaml.MappingNode:
		l.bad(at, what+" is "+shape(n)+" here, and needs keys with values", `write "key: value" lines, or {} where there is nothing to say`)
		return
	}
	seen := make(map[string]*yaml.Node, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		switch {
		case key.Kind != yaml.ScalarNode:
			l.bad(key, "a key is "+shape(key)+", and must be a plain word", "write the word itself")
			continue
		case key.Tag == "!!merge":
			l.bad(key, "merge keys (<<) are not read", "write the values out")
			continue
		case l.tagged(key):
			continue
		}
		if first, twice := seen[key.Value]; twice {
			l.duplicate(l.place(key), key.Value, l.place(first))
			continue
		}
		seen[key.Value] = key
		take(key, value)
	}
}

func (l *loader) duplicate(at Place, key string, first Place) {
	l.note(Problem{
		Rule: DuplicateKey, At: at, Also: first,
		What: fmt.Sprintf("the key %q was written before, at %s", clip(key), first),
		Why:  "only one of the two can be meant",
		Fix:  "take one out, or give it another key",
	})
}

func (l *loader) bad(n *yaml.Node, what, fix string) {
	l.problem(BadValue, l.place(n), what, "", fix)
}
