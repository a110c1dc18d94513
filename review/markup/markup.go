// Package markup writes HTML from a tree of nodes.
//
//	markup.Write(w, markup.El("p", markup.Class("lead"), markup.Text(anything)))
//
// # Safe for every text
//
// A text or the value of an attribute may be anything: it is escaped as it is written (WHATWG,
// HTML, section 13.1). There are no other places for it. Names of elements and attributes, styles
// and scripts are the program's own; data reaches a script as JSON only; and an element or attribute
// by which a browser would run, fetch or follow something is refused: [Write] gives an error.
//
// # Why not the templates of Go
//
// Package html/template calls methods by their names, which makes the linker keep every method of
// every type in the program: a fifth of passband's size.
package markup

// A Node is an element, an attribute, a text, or several of them. Nil is nothing.
type Node struct {
	kind   kind
	name   string // of an element or attribute
	text   string // or the value of an attribute
	inside []*Node
}

type kind uint8

const (
	group kind = iota
	element
	attribute
	text
	verbatim // written as it is: a style, a script or JSON
	failed   // what could not be made; text says why
)

// El is an element: its attributes, and what stands in it. One that a browser would run or fetch
// is refused; [Style], [Script] and [JSON] make those that a page may have.
func El(name string, inside ...*Node) *Node {
	if actingElements.has(name) {
		return refused("element", name)
	}
	return &Node{kind: element, name: name, inside: inside}
}

// Attr is an attribute of the element that it stands in. One that a browser would run, fetch or
// follow out of the page is refused.
func Attr(name, value string) *Node {
	if actingAttribute(name, value) {
		return refused("attribute", name)
	}
	return &Node{kind: attribute, name: name, text: value}
}

// Class is the attribute class.
func Class(names string) *Node { return Attr("class", names) }

// Text is a text.
func Text(s string) *Node { return &Node{kind: text, text: s} }

// Group is nodes that follow each other. Attributes among them are those of the element around it.
func Group(inside ...*Node) *Node { return &Node{inside: inside} }

// If gives nodes where something holds, and otherwise nothing.
func If(holds bool, inside ...*Node) *Node {
	if !holds {
		return nil
	}
	return Group(inside...)
}

// Each gives what node makes of each value.
func Each[T any](all []T, node func(T) *Node) *Node {
	inside := make([]*Node, len(all))
	for i, one := range all {
		inside[i] = node(one)
	}
	return Group(inside...)
}
