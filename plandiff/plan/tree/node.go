package tree

import (
	"iter"
	"strings"
	"sync"
	"unsafe"
)

// A Kind says what a node is.
type Kind uint8

// The kinds of nodes.
const (
	Scalar   Kind = iota + 1 // one value, which has no nodes in it
	Mapping                  // keys and values, by turns
	Sequence                 // items
	Alias                    // another node, once more
)

// A Tree is what one text says. The nodes stand in the order of the text, each
// before those inside it. Their values point into the text.
type Tree struct {
	nodes   []node
	text    string           // what the scanner read; "" where yaml.v3 did
	tags    map[int32]string // tags that are written out
	targets map[int32]int32  // what aliases stand for
	second  Mark
}

// node is one node: 32 bytes, of which a plan of 100,000 channels has a million.
type node struct {
	value        string
	end          int32 // the index behind the last node inside it
	line, column int32
	kind         Kind
	is           quality
}

// A quality is what else is known of a node, in bits.
type quality uint8

const (
	null     quality = 1 << iota // nothing, or a word for it
	merge                        // the key <<
	anchored                     // it has a name, for aliases
	flow                         // a collection between brackets
)

// A Mark is a place in the text: a line and a column in characters, both from 1.
type Mark struct{ Line, Column int32 }

// nodes that are used no more, for the next text: they are most of what it takes to read one.
var used sync.Pool

// spare gives room for n nodes, or for some that were used.
func spare(n int) []node {
	if nodes, ok := used.Get().(*[]node); ok && cap(*nodes) >= n {
		return (*nodes)[:0]
	}
	return make([]node, 0, n)
}

// Free says that no node of the tree is used any more. Their values may be.
func (t *Tree) Free() {
	nodes := t.nodes
	t.nodes = nil
	used.Put(&nodes)
}

// Root gives the node that the text is, or none where nothing stands in it.
func (t *Tree) Root() Node {
	if len(t.nodes) == 0 {
		return Node{}
	}
	return Node{t, 0}
}

// Second tells where a second document begins, if one does.
func (t *Tree) Second() (at Mark, ok bool) { return t.second, t.second.Line > 0 }

// A Node is one node of a tree. The zero Node is none.
type Node struct {
	tree *Tree
	at   int32
}

func (n Node) node() *node { return &n.tree.nodes[n.at] }

// IsZero reports whether there is no node.
func (n Node) IsZero() bool { return n.tree == nil }

// Kind tells what the node is.
func (n Node) Kind() Kind { return n.node().kind }

// Value gives the text of a scalar, without quotes, or the name in an alias.
func (n Node) Value() string { return n.node().value }

// Mark gives the place where the node begins.
func (n Node) Mark() Mark { return Mark{n.node().line, n.node().column} }

// IsNull reports whether the node is a plain ~ or null, or nothing at all.
func (n Node) IsNull() bool { return n.node().is&null != 0 }

// IsAnchored reports whether the node has an anchor, by which aliases repeat it.
func (n Node) IsAnchored() bool { return n.node().is&anchored != 0 }

// IsMerge reports whether the node is the key <<.
func (n Node) IsMerge() bool { return n.node().is&merge != 0 }

// Tag gives the tag that is written before the node, if there is one.
func (n Node) Tag() (tag string, ok bool) {
	tag, ok = n.tree.tags[n.at]
	return tag, ok
}

// Target gives the node that an alias stands for.
func (n Node) Target() Node { return Node{n.tree, n.tree.targets[n.at]} }

// Size counts the nodes inside the node, but not what aliases in it stand for.
func (n Node) Size() int { return int(n.node().end - n.at - 1) }

// Items gives the nodes right inside the node, in their order.
func (n Node) Items() iter.Seq[Node] {
	return func(yield func(Node) bool) {
		for at := n.at + 1; at < n.node().end; at = n.tree.nodes[at].end {
			if !yield(Node{n.tree, at}) {
				return
			}
		}
	}
}

// Pairs gives the keys of a mapping with their values, in their order.
func (n Node) Pairs() iter.Seq2[Node, Node] {
	return func(yield func(key, value Node) bool) {
		for at := n.at + 1; at < n.node().end; {
			value := n.tree.nodes[at].end
			if !yield(Node{n.tree, at}, Node{n.tree, value}) {
				return
			}
			at = n.tree.nodes[value].end
		}
	}
}

// Source gives the text of one key of the mapping with all that stands in its value, from
// the key to the end of the last line that is no comment. Where two keys are the same and
// their sources, too, so are their values. It is "" where that is not known: between brackets,
// and where yaml.v3 read.
func (n Node) Source(key Node) string {
	t := n.tree
	if t.text == "" || n.node().is&flow != 0 {
		return ""
	}
	text := t.text
	if next := t.nodes[t.nodes[key.at].end].end; int(next) < len(t.nodes) { // a key further on, on a line of its own
		if t.nodes[next].value == "" {
			return ""
		}
		text = text[:max(0, strings.LastIndexByte(text[:t.offset(next)], '\n'))]
	}
	return withoutComments(text[t.offset(key.at):])
}

// offset tells where a value that the scanner read begins in the text, of which it is a part.
func (t *Tree) offset(at int32) int {
	return int(uintptr(unsafe.Pointer(unsafe.StringData(t.nodes[at].value))) - uintptr(unsafe.Pointer(unsafe.StringData(t.text))))
}

// withoutComments takes lines off the end that hold nothing but blanks and comments.
func withoutComments(text string) string {
	for {
		text = strings.TrimRight(text, " \n")
		last := strings.LastIndexByte(text, '\n') + 1
		if last == 0 || !strings.HasPrefix(strings.TrimLeft(text[last:], " "), "#") {
			return text
		}
		text = text[:last]
	}
}
