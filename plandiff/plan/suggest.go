package plan

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// Nearest gives the word that somebody most likely meant: the one fewest edits
// away, at most a third of its length, or "" where none is near. Of two that are
// equally near it is the first in the alphabet.
func Nearest(text string, words []string) string {
	best, bestCost := "", len(text)+1
	if len(text) > 64 {
		return ""
	}
	low := strings.ToLower(text)
	for _, w := range words {
		if cost := levenshtein.ComputeDistance(low, strings.ToLower(w)); cost < bestCost || cost == bestCost && w < best {
			best, bestCost = w, cost
		}
	}
	if bestCost > max(1, (len(best)+1)/3) {
		return ""
	}
	return best
}

// mostCompared is how many words the references of one plan are compared with.
const mostCompared = 2_000_000

// A suggester finds what was meant by references that lead nowhere. A plan with
// very many of them gets suggestions for the first: it has one fault, not many.
type suggester struct {
	found    map[[2]string]string // by kind and text
	compared int
}

// to gives the word of known that is nearest to text, or "".
func (s *suggester) to(kind, text string, known func() []string) string {
	if near, ok := s.found[[2]string{kind, text}]; ok {
		return near
	}
	if s.compared > mostCompared {
		return ""
	}
	words := known()
	s.compared += len(words)
	near := Nearest(text, words)
	if near == text {
		near = "" // it is there, and something else is wrong with it
	}
	if s.found == nil {
		s.found = make(map[[2]string]string)
	}
	s.found[[2]string{kind, text}] = near
	return near
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
