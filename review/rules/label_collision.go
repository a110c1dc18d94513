package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed label_collision.md
var labelCollisionDoc string

// LabelCollision reports labels of one zone that differ, and no longer do once
// a radio has cut them to its length.
var LabelCollision = &review.Rule{
	ID:       "label-collision",
	Severity: review.Warn, // on that radio, members cannot tell which of them they are on
	Edition:  2026,
	Doc:      labelCollisionDoc,
	Run:      labelCollision,
}

func labelCollision(p *review.Pass) {
	var found clashes
	for _, fit := range p.Expansion.Fits {
		if fit.Radio.LabelLength.Or(0) == 0 {
			continue
		}
		for _, z := range fit.Zones {
			for _, set := range alike(z.Channels, fit.Label) {
				if set = distinct(set); len(set) > 1 {
					found.add(set, z.Zone, fit.Radio)
				}
			}
		}
	}
	for _, c := range found.all {
		at, ok := c.place(p.Plan)
		if !ok {
			continue
		}
		fit := plan.Fit{Radio: c.radios[0]}
		cut := fit.Label(c.channels[0])
		p.Report(review.Finding{
			At: at, About: byName(c.channels),
			What:   fmt.Sprintf("%s in %s all show %q on %s", several(namesOf(c.channels)), c.where(), cut, several(widths(c.radios))),
			Why:    "members cannot tell which of them they are on",
			Fix:    "shorten the labels, or let them differ at their beginning",
			Also:   c.related(),
			Source: "the label length that the plan states for the radio",
		})
	}
}

// distinct gives the first channel of each full label: equal ones are the matter
// of another rule.
func distinct(channels []*plan.Channel) []*plan.Channel {
	seen := make(map[string]bool)
	var first []*plan.Channel
	for _, c := range channels {
		if !seen[c.Label] {
			seen[c.Label] = true
			first = append(first, c)
		}
	}
	return first
}

// widths names radios with the length that each shows.
func widths(radios []*plan.Radio) []string {
	texts := make([]string, len(radios))
	for i, r := range radios {
		texts[i] = fmt.Sprintf("%s (%d characters)", r.Thing(), r.LabelLength.V)
	}
	return texts
}
