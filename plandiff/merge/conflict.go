package merge

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// side is one of the two that are merged.
type side uint8

const (
	ourSide side = iota + 1
	theirSide
)

// A Conflict is a question that only a person can answer.
type Conflict struct {
	Thing  plan.Thing // what it is about, by its key in the base, or its new one
	Field  string     // the fields it is about; "" for the record as a whole
	Ours   Version
	Theirs Version
}

// A Version is what one side made of something.
type Version struct {
	Words string     // "output 444.350, split +5"
	At    plan.Place // in the file of that side; zero for what is gone
}

// String tells both sides to a person.
func (c Conflict) String() string {
	about := c.Thing.String()
	if c.Field != "" {
		about += ", " + c.Field
	}
	return fmt.Sprintf("%s: ours %s; theirs %s", about, c.Ours, c.Theirs)
}

// String tells what one side made, and where.
func (v Version) String() string {
	if v.At.IsZero() || v.At.File == "-" {
		return v.Words
	}
	return fmt.Sprintf("%s (%s)", v.Words, v.At)
}

// says tells a field's value.
func says(texts []string) string {
	if len(texts) == 0 {
		return "takes it away"
	}
	return "says " + strings.Join(texts, ", ")
}

// sortConflicts puts them in the order of their things and fields.
func sortConflicts(all []Conflict) {
	slices.SortStableFunc(all, func(a, b Conflict) int {
		if a.Thing.Kind != b.Thing.Kind {
			return int(a.Thing.Kind) - int(b.Thing.Kind)
		}
		return strings.Compare(a.Thing.Key+a.Field, b.Thing.Key+b.Field)
	})
}
