package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed label_twice_in_zone.md
var labelTwiceInZoneDoc string

// LabelTwiceInZone reports channels of one zone with equal labels.
var LabelTwiceInZone = &review.Rule{
	ID:       "label-twice-in-zone",
	Severity: review.Warn, // members cannot tell which of them they are on
	Edition:  2026,
	Doc:      labelTwiceInZoneDoc,
	Run:      labelTwiceInZone,
}

func labelTwiceInZone(p *review.Pass) {
	var found clashes
	for _, z := range p.Expansion.Zones {
		for _, set := range alike(channelsOf(z.Members), func(c *plan.Channel) string { return c.Label }) {
			found.add(set, z.Zone, nil)
		}
	}
	for _, c := range found.all {
		at, ok := c.place(p.Plan)
		if !ok {
			continue
		}
		label := c.channels[0].Label
		p.Report(review.Finding{
			At: at, About: byName(c.channels),
			What: fmt.Sprintf("%s in %s are all labelled %q", several(namesOf(c.channels)), c.where(), label),
			Why:  "members cannot tell which of them they are on",
			Fix:  "give one of them another label; one that nobody wrote gets a label by a record in channels with its path",
			Also: c.related(),
		})
	}
}
