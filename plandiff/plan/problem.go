package plan

import (
	"fmt"
	"slices"
	"strings"
)

// Names of what can be wrong with the text of a plan. Each is also a rule with
// a page of its own in review/rules.
const (
	BadSyntax    = "bad-syntax"    // not YAML or CSV at all
	BadValue     = "bad-value"     // a value that does not mean what its place needs
	UnknownKey   = "unknown-key"   // a key that no section knows
	DuplicateKey = "duplicate-key" // a key written twice
	FileRefused  = "file-refused"  // a file that is too large, a link, unreadable
)

// A Problem is a reason why part of a plan's text could not be read.
type Problem struct {
	Rule string // BadSyntax, BadValue, UnknownKey, DuplicateKey or FileRefused
	At   Place
	What string // what is wrong
	Why  string // why it matters
	Fix  string // what to do
	Also Place  // the other place it is about, if there is one
}

// Error gives "file:line:col: what; why; what to do".
func (p Problem) Error() string {
	parts := []string{p.What}
	for _, s := range []string{p.Why, p.Fix} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return fmt.Sprintf("%s: %s", p.At, strings.Join(parts, "; "))
}

// sortProblems orders by place and drops what was said twice.
func sortProblems(ps []Problem) []Problem {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		if c := a.At.Compare(b.At); c != 0 {
			return c
		}
		return strings.Compare(a.What, b.What)
	})
	return slices.Compact(ps)
}
