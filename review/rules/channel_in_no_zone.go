package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed channel_in_no_zone.md
var channelInNoZoneDoc string

// ChannelInNoZone reports a channel that somebody wrote and no zone holds.
var ChannelInNoZone = &review.Rule{
	ID:       "channel-in-no-zone",
	Severity: review.Warn, // a channel that was written was meant to be used
	Edition:  2026,
	Doc:      channelInNoZoneDoc,
	Run:      channelInNoZone,
}

func channelInNoZone(p *review.Pass) {
	if !p.Expansion.Overflow.IsZero() {
		return // the zones are not worked out to their end
	}
	in := inZones(p.Expansion)
	for _, c := range p.Expansion.Channels {
		if c.Spec == nil || in[c] {
			continue
		}
		p.Report(review.Finding{
			At: c.At, About: []plan.Thing{c.Thing()},
			What: fmt.Sprintf("%s is in no zone", c.Thing()),
			Why:  "no position of the knob reaches it",
			Fix:  "add it to a zone, or take it out",
		})
	}
}
