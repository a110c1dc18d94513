package rules

import (
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed transmit_on_receive_channel.md
var transmitOnReceiveChannelDoc string

// TransmitOnReceiveChannel reports a channel for listening only that speaks of transmitting.
var TransmitOnReceiveChannel = &review.Rule{
	ID:       "transmit-on-receive-channel",
	Severity: review.Block, // somebody meant it to transmit, where perhaps nobody may
	Edition:  2026,
	Doc:      transmitOnReceiveChannelDoc,
	Run:      transmitOnReceiveChannel,
}

func transmitOnReceiveChannel(p *review.Pass) {
	ofTransmitting := fieldsNamed(plan.KindChannel, "transmit", "power", "timeout_s", "fm.tone.send", "fm.access", "dmr.access")
	for _, c := range p.Plan.Channels.All() {
		if !c.Receive.Written() || c.Simplex.Written() || c.Path.Written() {
			continue // channel-unclear tells of two at once
		}
		said := stated(c, ofTransmitting)
		if !c.Transmit.Or(false) { // transmit: no says what is so anyway
			said = slices.DeleteFunc(said, func(i plan.Item) bool { return i.Text == "transmit" })
		}
		if len(said) > 0 {
			p.Report(speaksOfTransmitting(c, said))
		}
	}
}

func speaksOfTransmitting(c *plan.ChannelSpec, said []plan.Item) review.Finding {
	names := texts(said)
	f := review.Finding{
		At: said[0].At, About: []plan.Thing{c.Thing()}, Values: names,
		What:   fmt.Sprintf("%s only receives, and says %s, which is about transmitting", c.Thing(), several(names)),
		Why:    "somebody meant it to transmit, and a radio programmed so would, perhaps where nobody may",
		Fix:    "take it out; if members may transmit there, write simplex: in place of receive:",
		Source: "the plan's own text: a channel with receive never transmits",
		Also:   places(said[1:]),
	}
	if slices.Contains(names, "fm.tone.send") {
		f.Fix += "; a tone that opens the squelch is tone: {receive: ...}"
	}
	return f
}
