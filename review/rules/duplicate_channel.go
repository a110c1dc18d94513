package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed duplicate_channel.md
var duplicateChannelDoc string

// DuplicateChannel reports channels that do the same.
var DuplicateChannel = &review.Rule{
	ID:       "duplicate-channel",
	Severity: review.Warn, // it wastes a memory, and one of them will be forgotten in an edit
	Edition:  2026,
	Doc:      duplicateChannelDoc,
	Run:      duplicateChannel,
}

func duplicateChannel(p *review.Pass) {
	on := make(map[signalOf]int, len(p.Expansion.Channels))
	for _, c := range p.Expansion.Channels {
		on[signalOn(c)]++
	}
	sets := make(map[doing][]*plan.Channel)
	for _, c := range p.Expansion.Channels {
		if c.Receive != 0 && on[signalOn(c)] > 1 && !unread(p.Plan, c) {
			d := doingOf(c)
			sets[d] = append(sets[d], c)
		}
	}
	for _, set := range sets {
		if len(set) > 1 {
			p.Report(sameChannels(set))
		}
	}
}

// signalOf is what tells most channels apart, at little cost.
type signalOf struct {
	receive, transmit signal.Hertz
	group             string
	slot              signal.Slot
}

func signalOn(c *plan.Channel) signalOf { return signalOf{c.Receive, c.Transmit, c.GroupKey, c.Slot} }

// doing is all that a channel does: two that agree in it differ in their labels alone.
type doing struct {
	repeater             *plan.Repeater // two repeaters on one pair are two repeaters
	mode                 plan.Mode
	receive, transmit    signal.Hertz
	wide                 bool
	send, hear           signal.Tone
	colorCode            signal.ColorCode
	coded                bool
	slot                 signal.Slot
	group, listens       string
	power, access, scans string
	privacy              bool
	timeout              int
}

func doingOf(c *plan.Channel) doing {
	return doing{
		repeater: c.Repeater, mode: c.Mode,
		receive: c.Receive, transmit: c.Transmit, wide: c.Wide,
		send: canonical(c.ToneSend), hear: canonical(c.ToneReceive),
		colorCode: c.ColorCode.Or(0), coded: c.ColorCode.IsSet(),
		slot: c.Slot, group: c.GroupKey, listens: strings.Join(c.Listens, " "),
		power: c.Power, access: c.Access, scans: c.ScanList, timeout: c.Timeout, privacy: c.Privacy,
	}
}

// canonical gives the one of all spellings of a tone that stands for it: tones
// that are the same on the air give the same.
func canonical(t signal.Tone) signal.Tone {
	if dcs, ok := t.DCS(); ok {
		return dcs.Canonical().Tone()
	}
	return t
}

// sameChannels reports a set of channels at the last of their lines.
func sameChannels(set []*plan.Channel) review.Finding {
	slices.SortFunc(set, func(a, b *plan.Channel) int {
		return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Name, b.Name))
	})
	last := set[len(set)-1]
	f := review.Finding{
		At:   last.At,
		What: fmt.Sprintf("%s does the same as %s", last.Thing(), several(namesOf(set[:len(set)-1]))),
		Why:  "it takes another memory, and whoever edits one of them forgets the other",
		Fix:  "take one out, or let it differ in what it is there for",
	}
	for _, c := range set[:len(set)-1] {
		f.Also = append(f.Also, review.Related{At: c.At, Text: c.Thing().String()})
	}
	f.About = byName(set)
	return f
}
