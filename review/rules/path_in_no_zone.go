package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed path_in_no_zone.md
var pathInNoZoneDoc string

// PathInNoZone reports a talk path of a repeater that no zone holds.
var PathInNoZone = &review.Rule{
	ID:       "path-in-no-zone",
	Severity: review.Note, // a repeater may carry more than a club cares to load
	Edition:  2026,
	Doc:      pathInNoZoneDoc,
	Run:      pathInNoZone,
}

func pathInNoZone(p *review.Pass) {
	if !p.Expansion.Overflow.IsZero() {
		return // the zones are not worked out to their end
	}
	in := inZones(p.Expansion)
	channels := p.Expansion.Channels
	for len(channels) > 0 {
		n := 1 // those of one repeater stand together
		for n < len(channels) && channels[n].Repeater == channels[0].Repeater {
			n++
		}
		if channels[0].Repeater != nil {
			reportPaths(p, channels[:n], in)
		}
		channels = channels[n:]
	}
}

// reportPaths reports the talk paths of one repeater that are in no zone: as one
// finding where none of them is.
func reportPaths(p *review.Pass, channels []*plan.Channel, in map[*plan.Channel]bool) {
	var missing []*plan.Channel
	for _, c := range channels {
		if c.Spec == nil && !in[c] {
			missing = append(missing, c)
		}
	}
	f := review.Finding{
		Why: "no position of the knob reaches it",
		Fix: "add it to a zone, or take it off the repeater if it is not on the air",
	}
	if r := channels[0].Repeater; len(missing) == len(channels) && len(missing) > 1 {
		f.At, f.About = r.Place(), []plan.Thing{r.Thing()}
		f.What = fmt.Sprintf("none of the %d talk paths of %s is in a zone", len(missing), r.Thing())
		p.Report(f)
		return
	}
	for _, c := range missing {
		f.At, f.About = c.At, []plan.Thing{c.Thing(), c.Repeater.Thing()}
		f.What = fmt.Sprintf("the talk path %s is in no zone", c.Path)
		p.Report(f)
	}
}
