package plan

import (
	"fmt"

	"passband.example/plandiff/plan/tree"
)

// shape names what a node is, for a person.
func shape(n tree.Node) string {
	switch n.Kind() {
	case tree.Mapping:
		return "a set of keys"
	case tree.Sequence:
		return "a list"
	case tree.Alias:
		return "an alias"
	}
	return "a single value"
}

// text gives the text of a scalar as its author wrote it.
func (l *loader) text(n tree.Node, name string) (string, tree.Node, bool) {
	at := n
	if n = l.follow(n); n.IsZero() {
		return "", tree.Node{}, false
	}
	switch {
	case n.Kind() != tree.Scalar:
		l.bad(at, fmt.Sprintf("%s is %s, and needs a single value", name, shape(n)), "write one value behind the colon")
	case n.IsNull():
		l.bad(n, name+" has no value", "write one, or leave the key out; put quotes around it where the word itself is meant")
	default:
		return n.Value(), n, true
	}
	return "", n, false
}

// loadValue reads a scalar. A value that cannot be read is marked as bad, and
// the place is kept, so that nothing else is said about it.
func loadValue[T any](l *loader, name string, c codec[T], at tree.Node) Value[T] {
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
func loadList[T any](l *loader, name string, c codec[T], n tree.Node) []Value[T] {
	at := n
	if n = l.follow(n); n.IsZero() {
		return nil
	}
	switch {
	case n.IsNull():
		return nil
	case n.Kind() == tree.Scalar:
		return []Value[T]{loadValue(l, name, c, n)}
	case n.Kind() != tree.Sequence:
		l.bad(at, fmt.Sprintf("%s is %s, and needs a list", name, shape(n)), "write [one, two]")
		return nil
	}
	values := make([]Value[T], 0, n.Size())
	for item := range n.Items() {
		values = append(values, loadValue(l, name, c, item))
	}
	return values
}
