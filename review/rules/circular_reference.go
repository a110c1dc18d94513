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
	if len(p.Expansion.Cycles) == 0 {
		return
	}
	at := links(p.Plan)
	seen := make(map[string]bool)
	for _, c := range p.Expansion.Cycles {
		circle := fromLeast(c.Through[:len(c.Through)-1])
		if id := fmt.Sprint(circle); !seen[id] {
			seen[id] = true
			p.Report(circleFinding(circle, at))
		}
	}
}

// A link is one record that names another of its kind.
type link struct{ from, to plan.Thing }

// links gives the line of each channel and each zone that names another.
func links(p *plan.Plan) map[link]plan.Place {
	at := make(map[link]plan.Place)
	for _, c := range p.Channels.All() {
		if c.Path.IsSet() {
			at[link{c.Thing(), plan.Thing{Kind: plan.KindChannel, Key: c.Path.V}}] = c.Path.At
		}
	}
	for _, z := range p.Zones.All() {
		for _, entry := range z.Channels {
			inner, ok := strings.CutPrefix(entry.V, includes)
			l := link{z.Thing(), plan.Thing{Kind: plan.KindZone, Key: inner}}
			if _, twice := at[l]; ok && entry.IsSet() && !twice {
				at[l] = entry.At
			}
		}
	}
	return at
}

// includes begins an entry that stands for the channels of another zone.
const includes = "zone:"

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

func circleFinding(circle []plan.Thing, lines map[link]plan.Place) review.Finding {
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
		at := lines[link{from, to}]
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
