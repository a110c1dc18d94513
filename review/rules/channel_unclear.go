package rules

import (
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed channel_unclear.md
var channelUnclearDoc string

// ChannelUnclear reports a channel that does not say the one thing that it is:
// simplex, receive only, or the channel of a talk path.
var ChannelUnclear = &review.Rule{
	ID:       "channel-unclear",
	Severity: review.Block, // what it would transmit on is a guess
	Edition:  2026,
	Doc:      channelUnclearDoc,
	Run:      channelUnclear,
}

func channelUnclear(p *review.Pass) {
	for _, c := range p.Plan.Channels.All() {
		said := slices.DeleteFunc([]plan.Item{{Text: "simplex", At: c.Simplex.At}, {Text: "receive", At: c.Receive.At}, {Text: "path", At: c.Path.At}},
			func(i plan.Item) bool { return i.At.IsZero() })
		f := review.Finding{
			At: c.Place(), About: []plan.Thing{c.Thing()},
			What:   fmt.Sprintf("%s says none of simplex, receive and path", c.Thing()),
			Why:    "there is nothing to hear or to send on, so it is a channel in name only",
			Fix:    "write simplex: and a frequency, receive: for listening only, or path: and a talk path",
			Source: "the plan's own text",
		}
		switch {
		case len(said) == 1, len(said) == 0 && c.Partly():
			continue
		case len(said) > 1:
			f.At, f.Values = said[1].At, texts(said)
			f.What = fmt.Sprintf("%s says %s at once", c.Thing(), several(f.Values))
			f.Why = "only one can be meant, and they differ in what the radio would transmit on"
			f.Fix = "keep the one that is meant"
			f.Also = places(said[:1])
		}
		p.Report(f)
	}
}
