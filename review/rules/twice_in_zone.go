package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed twice_in_zone.md
var twiceInZoneDoc string

// TwiceInZone reports a zone or a scan list that names a channel twice.
var TwiceInZone = &review.Rule{
	ID:       "twice-in-zone",
	Severity: review.Note, // the radio holds it once, at its first place
	Edition:  2026,
	Doc:      twiceInZoneDoc,
	Run:      twiceInZone,
}

func twiceInZone(p *review.Pass) {
	for _, z := range p.Expansion.Zones {
		reportTwice(p, z.Zone.Thing(), z.Members, z.Twice)
	}
	for _, s := range p.Expansion.ScanLists {
		reportTwice(p, s.List.Thing(), s.Members, s.Twice)
	}
}

// reportTwice reports each line that names a channel again. An entry may stand
// for several channels of one talk path.
func reportTwice(p *review.Pass, in plan.Thing, members, twice []plan.Member) {
	if len(twice) == 0 {
		return
	}
	first := make(map[*plan.Channel]plan.Place, len(members))
	for _, m := range members {
		first[m.Channel] = m.At
	}
	told := make(map[plan.Place]bool)
	for _, m := range twice {
		if told[m.At] {
			continue
		}
		told[m.At] = true
		f := review.Finding{
			At: m.At, About: []plan.Thing{in, m.Channel.Thing()},
			What: fmt.Sprintf("%s names %s again", in, m.Entry),
			Why:  "the radio holds it once, at its first place",
			Fix:  "take one of the two entries out",
			Also: []review.Related{{At: first[m.Channel], Text: "the first place"}},
		}
		if r, ok := p.Plan.Find(in); ok {
			f.Mend = mendItem(r, m.At, func(string) []string { return nil })
		}
		p.Report(f)
	}
}
