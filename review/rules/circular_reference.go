package rules

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed circular_reference.md
var circularReferenceDoc string

// CircularReference reports zones that include each other and channels that
// name each other as their path.
var CircularReference = &review.Rule{
	ID:       "circular-reference",
	Severity: review.Block, // a channel in a circle has no frequency
	Edition:  2026,
	Doc:      circularReferenceDoc,
	Run:      circularReference,
}

func circularReference(p *review.Pass) {
	seen := make(map[string]bool)
	for _, c := range p.Expansion.Cycles {
		circle := fromLeast(c.Through[:len(c.Through)-1])
		if id := fmt.Sprint(circle); !seen[id] {
			seen[id] = true
			p.Report(circleFinding(p.Plan, circle))
		}
	}
}

// fromLeast turns a circle so that it begins at its least key: it is found once
// from each record in it, and is one fault.
func fromLeast(circle []plan.Thing) []plan.Thing {
	least := 0
	for i, t := range circle {
		if t.Key < circle[least].Key {
			least = i
		}
	}
	return slices.Concat(circle[least:], circle[:least])
}

func circleFinding(p *plan.Plan, circle []plan.Thing) review.Finding {
	verb := "includes"
	f := review.Finding{
		About: circle,
		Why:   "a zone that includes itself has no end",
		Fix:   "take one of these entries out, or name the channels that are meant",
	}
	if circle[0].Kind == plan.KindChannel {
		verb = "takes its path from"
		f.Why = "none of them says a frequency, so radios would be loaded without them"
		f.Fix = "give one of them a talk path or a frequency"
	}
	var said []string
	for i, from := range circle {
		to := circle[(i+1)%len(circle)]
		at := refersAt(p, from, to)
		if i == 0 {
			f.At = at
		} else {
			f.Also = append(f.Also, review.Related{At: at, Text: fmt.Sprintf("%s %s %s", from, verb, to)})
		}
		said = append(said, fmt.Sprintf("%s %s", verb, to))
	}
	if len(circle) == 1 {
		said[0] = verb + " itself"
	}
	f.What = fmt.Sprintf("%s %s", circle[0], strings.Join(said, ", which "))
	return f
}

// refersAt gives the line of a record that names the next one of the circle.
func refersAt(p *plan.Plan, from, to plan.Thing) plan.Place {
	if c, ok := p.Channels.Find(from.Key); ok && from.Kind == plan.KindChannel {
		return c.Path.At
	}
	z, ok := p.Zones.Find(from.Key)
	if !ok {
		return plan.Place{}
	}
	for _, entry := range z.Channels {
		if entry.IsSet() && entry.V == includes+to.Key {
			return entry.At
		}
	}
	return z.Place()
}

// includes begins an entry that stands for the channels of another zone.
const includes = "zone:"
