package plan

import (
	"fmt"

	"gopkg.in/yaml.v3"
)

// shape names what a node is, for a person.
func shape(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a set of keys"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "an alias"
	}
	return "a single value"
}

// text gives the text of a scalar as its author wrote it.
func (l *loader) text(n *yaml.Node, name string) (string, *yaml.Node, bool) {
	at := n
	if n = l.follow(n); n == nil {
		return "", nil, false
	}
	switch {
	case n.Kind != yaml.ScalarNode:
		l.bad(at, fmt.Sprintf("%s is %s, and needs a single value", name, shape(n)), "write one value behind the colon")
	case isEmpty(n):
		l.bad(n, name+" has no value", "write one, or leave the key out; put quotes around it where the word itself is meant")
	default:
		return n.Value, n, true
	}
	return "", n, false
}

// loadValue reads a scalar. A value that cannot be read is marked as bad, and
// the place is kept, so that nothing else is said about it.
func loadValue[T any](l *loader, name string, c codec[T], at *yaml.Node) Value[T] {
	text, n, ok := l.text(at, name)
	v := Value[T]{Text: text, Bad: true, At: l.place(at)}
	if !ok {
		return v
	}
	v.At = l.place(n)
	parsed, err := c.parse(text)
	if err != nil {
		l.bad(n, name+": "+err.Error(), "")
		return v
	}
	v.V, v.Bad = parsed, false
	return v
}

// loadList reads a list of scalars; one scalar alone counts as a list of one.
func loadList[T any](l *loader, name string, c codec[T], n *yaml.Node) []Value[T] {
	at := n
	if n = l.follow(n); n == nil {
		return nil
	}
	switch {
	case isEmpty(n):
		return nil
	case n.Kind == yaml.ScalarNode:
		return []Value[T]{loadValue(l, name, c, n)}
	case n.Kind != yaml.SequenceNode:
		l.bad(at, fmt.Sprintf("%s is %s, and needs a list", name, shape(n)), "write [one, two]")
		return nil
	}
	values := make([]Value[T], 0, len(n.Content))
	for _, item := range n.Content {
		values = append(values, loadValue(l, name, c, item))
	}
	return values
}
