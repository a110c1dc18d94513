package plan

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// Nearest gives the word that somebody most likely meant: the one fewest edits
// away, at most a third of its length, or "" where none is near. Of two that are
// equally near it is the first in the alphabet.
func Nearest(text string, words []string) string { return nearest(text, words).word }

// A near is the word that was most likely meant, and whether no other is as near.
type near struct {
	word string
	only bool
}

func nearest(text string, words []string) near {
	var best near
	bestCost := len(text) + 1
	if len(text) > 64 {
		return near{}
	}
	low := strings.ToLower(text)
	for _, w := range words {
		switch cost := levenshtein.ComputeDistance(low, strings.ToLower(w)); {
		case cost < bestCost:
			best, bestCost = near{w, true}, cost
		case cost == bestCost && w != best.word:
			best = near{min(w, best.word), false}
		}
	}
	if bestCost > max(1, (len(best.word)+1)/3) {
		return near{}
	}
	return best
}

// mostCompared is how many words the references of one plan are compared with.
const mostCompared = 2_000_000

// A suggester finds what was meant by references that lead nowhere. A plan with
// very many of them gets suggestions for the first: it has one fault, not many.
type suggester struct {
	found    map[[2]string]near // by kind and text
	compared int
}

// to gives the word of known that is nearest to text, if there is one.
func (s *suggester) to(kind, text string, known func() []string) near {
	if n, ok := s.found[[2]string{kind, text}]; ok {
		return n
	}
	if s.compared > mostCompared {
		return near{}
	}
	words := known()
	s.compared += len(words)
	n := nearest(text, words)
	if n.word == text {
		n = near{} // it is there, and something else is wrong with it
	}
	if s.found == nil {
		s.found = make(map[[2]string]near)
	}
	s.found[[2]string{kind, text}] = n
	return n
}

// keysOf gives the keys of a table when they are needed.
func keysOf[R Record](t *Table[R]) func() []string {
	return func() []string {
		keys := make([]string, t.Len())
		for i, r := range t.All() {
			keys[i] = r.Thing().Key
		}
		return keys
	}
}
