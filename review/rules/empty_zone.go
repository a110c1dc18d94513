package rules

import (
	_ "embed"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed empty_zone.md
var emptyZoneDoc string

// EmptyZone reports a zone that has no channels.
var EmptyZone = &review.Rule{
	ID:       "empty-zone",
	Severity: review.Warn, // some radios refuse to load it
	Edition:  2026,
	Doc:      emptyZoneDoc,
	Run:      emptyZone,
}

func emptyZone(p *review.Pass) {
	outer := emptyThrough(p.Expansion)
	for _, z := range p.Plan.Zones.All() {
		if len(z.Channels) > 0 || z.Partly() {
			continue
		}
		f := review.Finding{
			At: z.Place(), About: []plan.Thing{z.Thing()},
			What: fmt.Sprintf("%s has no channels", z.Thing()),
			Why:  "members would turn to it and find nothing, and some radios refuse to load it",
			Fix:  "name the channels that belong into it, or take it out",
		}
		for _, also := range reachedFrom(z.Key.V, outer) {
			f.Also = append(f.Also, review.Related{At: also.Place(), Text: also.Thing().String() + " includes it and is empty too"})
		}
		p.Report(f)
	}
}

// emptyThrough gives the zones that are empty though they have entries, by the
// zones that they include.
func emptyThrough(x *plan.Expansion) map[string][]*plan.Zone {
	outer := make(map[string][]*plan.Zone)
	if !x.Overflow.IsZero() {
		return outer // the zones are not worked out to their end
	}
	for _, z := range x.Zones {
		if len(z.Members) > 0 {
			continue
		}
		for _, entry := range z.Zone.Channels {
			if inner, ok := strings.CutPrefix(entry.V, includes); ok && entry.IsSet() {
				outer[inner] = append(outer[inner], z.Zone)
			}
		}
	}
	return outer
}

// reachedFrom gives the zones that include a zone, through others too, each once.
func reachedFrom(key string, outer map[string][]*plan.Zone) []*plan.Zone {
	var reached []*plan.Zone
	seen := map[string]bool{key: true}
	for next := []string{key}; len(next) > 0; next = next[1:] {
		for _, z := range outer[next[0]] {
			if !seen[z.Key.V] {
				seen[z.Key.V] = true
				reached = append(reached, z)
				next = append(next, z.Key.V)
			}
		}
	}
	return reached
}
