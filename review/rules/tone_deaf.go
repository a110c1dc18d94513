package rules

import (
	_ "embed"
	"fmt"
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed tone_deaf.md
var toneDeafDoc string

// ToneDeaf reports a simplex channel whose members cannot hear each other.
var ToneDeaf = &review.Rule{
	ID:       "tone-deaf",
	Severity: review.Warn, // somebody outside of the plan may send the tone
	Edition:  2026,
	Doc:      toneDeafDoc,
	Run:      toneDeaf,
}

func toneDeaf(p *review.Pass) {
	sent := sync.OnceValue(func() map[onAir]bool { return tonesOnAir(p.Expansion) })
	for _, c := range p.Plan.Channels.All() {
		need := c.FM.ToneReceive
		if !need.IsSet() || !c.Simplex.IsSet() || !c.Transmit.Or(true) || c.Partly() || need.V.Same(c.FM.ToneSend.V) {
			continue
		}
		if sent()[onAir{c.Simplex.V, canonical(need.V)}] {
			continue
		}
		sends := "no tone"
		if c.FM.ToneSend.IsSet() {
			sends = c.FM.ToneSend.V.String()
		}
		p.Report(review.Finding{
			At: need.At, About: []plan.Thing{c.Thing()}, Values: []string{sends, need.V.String()},
			What:   fmt.Sprintf("%s needs %s to hear and sends %s, so its members do not hear each other", c.Thing(), need.V, sends),
			Why:    "on a simplex channel all send what the channel says, and nothing in the plan sends the tone that it needs",
			Fix:    "send and receive the same tone, or leave receive out: the channel then opens to every carrier",
			Source: "the plan's own text: who shares a simplex channel sends its tone",
		})
	}
}

// An onAir is a tone on a frequency, a DCS code in its canonical spelling.
type onAir struct {
	on   signal.Hertz
	tone signal.Tone
}

// tonesOnAir gives what the channels and repeaters of the plan send. What a repeater
// sends is what its members need to hear it.
func tonesOnAir(x *plan.Expansion) map[onAir]bool {
	sent := make(map[onAir]bool)
	for _, c := range x.Channels {
		if c.Mode == plan.ModeFM && c.Transmit != 0 {
			sent[onAir{c.Transmit, canonical(c.ToneSend)}] = true
		}
	}
	for _, r := range x.Plan.Repeaters.All() {
		if r.FM.ToneReceive.IsSet() && r.Output.IsSet() {
			sent[onAir{r.Output.V, canonical(r.FM.ToneReceive.V)}] = true
		}
	}
	return sent
}
