package plan

import (
	"strings"

	"passband.example/plandiff/plan/tree"
)

// keys are those of one mapping that were read so far. Most mappings have a handful,
// for which a map costs more than to look at each.
type keys struct {
	of   tree.Node // the mapping
	few  [8]tree.Node
	n    int
	many map[string]tree.Node
}

// first gives the key that says the same as this one and came before it, if there is
// one; else it notes this one.
func (k *keys) first(key tree.Node) (first tree.Node, twice bool) {
	if k.many != nil {
		if first, twice = k.many[key.Value()]; !twice {
			k.many[key.Value()] = key
		}
		return first, twice
	}
	for _, first := range k.few[:k.n] {
		if first.Value() == key.Value() {
			return first, true
		}
	}
	if k.n < len(k.few) {
		k.few[k.n] = key
		k.n++
		return tree.Node{}, false
	}
	k.many = make(map[string]tree.Node, k.of.Size()/nodesInRecord)
	k.many[key.Value()] = key
	for _, first := range k.few {
		k.many[first.Value()] = first
	}
	return tree.Node{}, false
}

// nodesInRecord is how many nodes a key of a large mapping comes with, about: its own and
// those of a record on one line.
const nodesInRecord = 10

// A trail says what is being read, for messages: channel, net, dmr.
type trail []string

// String gives the words from the outermost on.
func (t trail) String() string { return strings.TrimSpace(strings.Join(t, " ")) }

// inside reads something that is called by a word of its own.
func (l *loader) inside(word string, read func()) {
	outer := l.trail
	l.trail = trail{word}
	read()
	l.trail = outer
}
