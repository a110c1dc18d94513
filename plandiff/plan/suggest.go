package plan

import (
	"strings"

	"github.com/agnivade/levenshtein"
)

// Nearest gives the word that somebody most likely meant: the one fewest edits
// away, at most a third of its length, or "" where none is near.
func Nearest(text string, words []string) string {
	best, bestCost := "", len(text)+1
	if len(text) > 64 {
		return ""
	}
	low := strings.ToLower(text)
	for _, w := range words {
		if cost := levenshtein.ComputeDistance(low, strings.ToLower(w)); cost < bestCost {
			best, bestCost = w, cost
		}
	}
	if bestCost > max(1, (len(best)+1)/3) {
		return ""
	}
	return best
}
