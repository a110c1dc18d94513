package rules

import (
	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// A toned is a tone that a record states, and the field that it stands in.
type toned struct {
	record plan.Record
	field  string
	tone   plan.Value[signal.Tone]
}

// tonesOf gives all tones of a plan that could be read.
func tonesOf(p *plan.Plan) []toned {
	var all []toned
	look := func(r plan.Record, fm *plan.FM) {
		if fm.ToneSend.IsSet() {
			all = append(all, toned{r, "fm.tone.send", fm.ToneSend})
		}
		if fm.ToneReceive.IsSet() {
			all = append(all, toned{r, "fm.tone.receive", fm.ToneReceive})
		}
	}
	for _, r := range p.Repeaters.All() {
		look(r, r.FM)
	}
	for _, c := range p.Channels.All() {
		look(c, c.FM)
	}
	return all
}

// A pair is what two stations must share to be in each other's way: what they send
// on and what they hear.
type pair struct{ output, input signal.Hertz }

// pairsOf gives the repeaters with an FM side by their pair of frequencies, each
// pair's in the order of their keys. A repeater that was read in part is not among
// them.
func pairsOf(p *plan.Plan) map[pair][]*plan.Repeater {
	on := make(map[pair][]*plan.Repeater)
	for _, r := range p.Repeaters.Sorted() {
		if r.Output.IsSet() && r.TransmitOn() != 0 && r.FM.Present.IsSet() && !r.Partly() {
			at := pair{r.Output.V, r.TransmitOn()}
			on[at] = append(on[at], r)
		}
	}
	return on
}
