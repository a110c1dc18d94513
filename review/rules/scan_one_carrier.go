package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/rf"
)

//go:embed scan_one_carrier.md
var scanOneCarrierDoc string

// ScanOneCarrier tells of a scan list with several channels that look at one carrier.
var ScanOneCarrier = &review.Rule{
	ID:       "scan-one-carrier",
	Severity: review.Note, // it works, and takes longer than it must
	Edition:  2026,
	Doc:      scanOneCarrierDoc,
	Run:      scanOneCarrier,
}

func scanOneCarrier(p *review.Pass) {
	for _, s := range p.Expansion.ScanLists {
		channels, members := scanned(s)
		groups := rf.OneCarrier(channels)
		if len(groups) == 0 {
			continue
		}
		spare := 0
		f := review.Finding{
			At: s.List.Place(), About: []plan.Thing{s.List.Thing()},
			Why:    "the radio stops at the same carrier again and again in one sweep, and comes by the others later",
			Fix:    "keep one of them, and let it listen for the groups of the others too (receive_list: slot, or a list); for FM, keep one",
			Source: "a radio hears all groups of its receive list on a slot at once (ETSI TS 102 361-2); the rest is arithmetic",
		}
		for _, g := range groups {
			spare += len(g) - 1
			for _, i := range g {
				f.Values = append(f.Values, carrier(channels[i]))
				f.Also = append(f.Also, review.Related{At: members[i].At, Text: fmt.Sprintf("%s listens to %s", members[i].Channel.Thing(), carrier(channels[i]))})
			}
		}
		const most = 12
		f.Also = f.Also[:min(len(f.Also), most)]
		f.What = fmt.Sprintf("%s looks at one carrier by several channels, such as %s and %s at %s: %s of %d could be left out", s.List.Thing(),
			members[groups[0][0]].Channel.Name, members[groups[0][1]].Channel.Name, carrier(channels[groups[0][0]]), counted(spare, "channel", "channels"), len(channels))
		p.Report(f)
	}
}

func carrier(c rf.ScanChannel) string {
	if c.DMR {
		return fmt.Sprintf("%s MHz slot %d", c.Receive, c.Slot)
	}
	return c.Receive.String() + " MHz"
}

// scanned gives the channels of a scan list that have a frequency, as an estimate takes them.
func scanned(s *plan.ScanChannels) ([]rf.ScanChannel, []plan.Member) {
	var channels []rf.ScanChannel
	var members []plan.Member
	for _, m := range s.Members {
		if c := m.Channel; c.Receive != 0 {
			channels = append(channels, rf.ScanChannel{Receive: c.Receive, DMR: c.Mode == plan.ModeDMR, Slot: slotIn(c), Tone: !c.ToneReceive.IsZero()})
			members = append(members, m)
		}
	}
	return channels, members
}

func slotIn(c *plan.Channel) signal.Slot {
	if c.Mode == plan.ModeDMR {
		return c.Slot
	}
	return 0
}
