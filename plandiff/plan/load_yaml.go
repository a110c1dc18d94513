package plan

import (
	"fmt"

	"passband.example/plandiff/plan/tree"
)

// maxAliased is how many nodes a plan may reach through aliases.
const maxAliased = 100_000

// readYAML reads one file into the plan. Its first line has the number line.
func (l *loader) readYAML(data []byte, line int) {
	t, err := tree.Parse(textOf(data), line)
	if err != nil {
		l.syntaxError(data, err.Error())
		return
	}
	defer t.Free()
	if second, ok := t.Second(); ok {
		l.problem(BadSyntax, l.placeOf(second), "a second document begins here", "a file of a plan holds one document", "take out the line of three hyphens, or put the rest into another file")
	}
	if t.Root().IsZero() {
		return
	}
	root := l.follow(t.Root())
	if root.IsZero() || root.IsNull() {
		return
	}
	l.inside("a file of a plan", func() { l.mapping(root, l.topKey) })
}

// syntaxError notes why and where a text is not YAML.
func (l *loader) syntaxError(data []byte, message string) {
	f := explain(data, message)
	l.problem(BadSyntax, l.at(data, f.offset), f.what, "nothing in this file can be used until it is mended", f.fix)
}

func (l *loader) place(n tree.Node) Place { return l.placeOf(n.Mark()) }

func (l *loader) placeOf(m tree.Mark) Place {
	return Place{File: l.file, Line: m.Line, Col: m.Column}
}

// follow gives the node that an alias stands for, or none where a plan follows
// too many of them, or the node has a tag.
func (l *loader) follow(n tree.Node) tree.Node {
	for n.Kind() == tree.Alias {
		if !l.aliased(n, 1) {
			return tree.Node{}
		}
		n = n.Target()
		if !l.aliased(n, n.Size()) {
			return tree.Node{}
		}
	}
	if l.tagged(n) {
		return tree.Node{}
	}
	return n
}

// tagged notes a tag, which could give a value another meaning than its text has.
func (l *loader) tagged(n tree.Node) bool {
	tag, ok := n.Tag()
	if ok {
		l.bad(n, fmt.Sprintf("the tag %q is not read", clip(tag)), "write the value alone, without what begins with !")
	}
	return ok
}

func isScalar(n tree.Node) bool {
	return n.Kind() == tree.Scalar || n.Kind() == tree.Alias && n.Target().Kind() == tree.Scalar
}

func (l *loader) aliased(n tree.Node, nodes int) bool {
	if l.alias <= maxAliased && l.alias+nodes > maxAliased {
		l.problem(BadSyntax, l.place(n), "aliases (*) repeat more values than passband follows", "a few lines could otherwise stand for millions", "write the values out")
	}
	l.alias += nodes
	return l.alias <= maxAliased
}

// mapping hands each key and value of n to take, once each.
func (l *loader) mapping(n tree.Node, take func(key, value tree.Node)) {
	at := n
	if n = l.follow(n); n.IsZero() {
		return
	}
	switch {
	case n.IsNull():
		return // a section with nothing in it yet
	case n.Kind() != tree.Mapping:
		l.bad(at, l.trail.String()+" is "+shape(n)+" here, and needs keys with values", `write "key: value" lines, or {} where there is nothing to say`)
		return
	}
	seen := keys{of: n}
	for key, value := range n.Pairs() {
		switch {
		case key.Kind() != tree.Scalar:
			l.bad(key, "a key is "+shape(key)+", and must be a plain word", "write the word itself")
			continue
		case key.IsMerge():
			l.bad(key, "merge keys (<<) are not read", "write the values out")
			continue
		case l.tagged(key):
			continue
		}
		if first, twice := seen.first(key); twice {
			l.duplicate(l.place(key), key.Value(), l.place(first))
			continue
		}
		take(key, value)
	}
}

func (l *loader) duplicate(at Place, key string, first Place) {
	if l.full() {
		return // there may be a million
	}
	l.note(Problem{
		Rule: DuplicateKey, At: at, Also: first,
		What: fmt.Sprintf("the key %q was written before, at %s", clip(key), first),
		Why:  "only one of the two can be meant",
		Fix:  "take one out, or give it another key",
	})
}

func (l *loader) bad(n tree.Node, what, fix string) {
	l.problem(BadValue, l.place(n), what, "", fix)
}
