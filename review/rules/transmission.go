package rules

import (
	"fmt"
	"strings"
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

// A transmission is one way in which a plan puts a station on the air: a frequency,
// how it sends there, and what kind of station it is.
type transmission struct {
	by       plan.Thing // the repeater or the channel that says so
	at       plan.Place // where it says so
	on       signal.Hertz
	emission license.Emission
	mode     string // as a person says the emission: FM 16 kHz wide
	station  license.Station
	repeater *plan.Repeater // nil for simplex
	output   signal.Power   // of the transmitter; zero: not known, or not asked about
	erp      signal.Power   // radiated; the same
	channels int            // of members that transmit so; none where the repeater does
}

// String begins a sentence that says what is wrong with the transmission.
func (t *transmission) String() string {
	does := "makes 1 channel transmit"
	switch {
	case t.station == license.RepeaterOutput:
		does = "itself transmits"
	case t.station == license.RepeaterInput:
		does = "receives"
	case t.channels != 1:
		does = fmt.Sprintf("makes %d channels transmit", t.channels)
	}
	return fmt.Sprintf("%s %s on %s MHz, %s", t.by, does, t.on, t.mode)
}

// A sending tells one transmission of a record from another.
type sending struct {
	by       plan.Thing
	on       signal.Hertz
	emission license.Emission
}

// sentByMembers gives what members would send, worked out once for all rules.
func sentByMembers(p *review.Pass) []*transmission {
	type key struct{}
	return review.Once(p, key{}, func() []*transmission { return memberTransmissions(p.Expansion) })
}

// memberTransmissions gives what members would send, each once: however many
// channels a repeater has, its input and mode are one. Ordered as channels are.
func memberTransmissions(x *plan.Expansion) []*transmission {
	var all []*transmission
	known := make(map[sending]*transmission)
	var last *transmission // the channels of a repeater come one after the other
	for _, c := range x.Channels {
		if c.Transmit == 0 || c.Spec != nil && c.Spec.Transmit.Bad {
			continue
		}
		t, ok := ofMember(x.Plan, c)
		if !ok {
			continue
		}
		key := sending{t.by, t.on, t.emission}
		if last == nil || key != (sending{last.by, last.on, last.emission}) {
			if last = known[key]; last == nil {
				last = &t
				known[key] = last
				all = append(all, last)
			}
		}
		last.channels++
	}
	return all
}

// ofMember gives the transmission of a channel, unless its width could not be read.
func ofMember(p *plan.Plan, c *plan.Channel) (t transmission, ok bool) {
	t = transmission{on: c.Transmit, repeater: c.Repeater}
	bad := false
	if r := c.Repeater; r != nil {
		t.by, t.at, bad = r.Thing(), r.InputPlace(), r.FM.Width.Bad
	} else if spec, ok := p.Channels.Find(c.Path); ok {
		t.by, t.at, bad = spec.Thing(), spec.Simplex.At, spec.FM.Width.Bad
	}
	t.emission, t.mode = emissionOf(c.Mode, c.Wide)
	return t, !bad || c.Mode != plan.ModeFM
}

// repeaterTransmissions gives what repeaters send on their output and hear on
// their input, in each of their modes.
func repeaterTransmissions(p *plan.Plan) []*transmission {
	var all []*transmission
	for _, r := range p.Repeaters.Sorted() {
		add := func(mode plan.Mode, wide bool) {
			t := transmission{by: r.Thing(), repeater: r}
			t.emission, t.mode = emissionOf(mode, wide)
			if r.Output.IsSet() {
				output := t
				output.at, output.on, output.station = r.Output.At, r.Output.V, license.RepeaterOutput
				all = append(all, &output)
			}
			if on := r.TransmitOn(); on != 0 {
				input := t
				input.at, input.on, input.station = r.InputPlace(), on, license.RepeaterInput
				all = append(all, &input)
			}
		}
		if r.FM.Present.IsSet() && !r.FM.Width.Bad {
			add(plan.ModeFM, r.FM.Width.Or("wide") == "wide")
		}
		if r.DMR.Present.IsSet() {
			add(plan.ModeDMR, false)
		}
	}
	return all
}

// emissionOf gives the emission that is judged for a mode, and its name. DMR is
// judged as speech: what a channel is there for, and all that is certain of it.
func emissionOf(mode plan.Mode, wide bool) (license.Emission, string) {
	all := emissions()
	e := all.narrow
	switch {
	case mode == plan.ModeDMR:
		e = all.dmr
	case wide:
		e = all.wide
	}
	return e.Emission, e.said
}

// A saidEmission is an emission with its name.
type saidEmission struct {
	license.Emission
	said string
}

// emissions are those of the modes of a plan, made once: every channel has one.
var emissions = sync.OnceValue(func() (all struct{ narrow, wide, dmr saidEmission }) {
	say := func(mode plan.Mode, e license.Emission) saidEmission {
		return saidEmission{e, strings.ToUpper(string(mode)) + " " + e.NecessaryBandwidth.KHz() + " kHz wide"}
	}
	all.narrow = say(plan.ModeFM, license.FMNarrow())
	all.wide = say(plan.ModeFM, license.FMWide())
	all.dmr = say(plan.ModeDMR, license.DMRVoice())
	return all
})

// siteOf gives where a repeater stands, or nil where the plan does not say.
func siteOf(r *plan.Repeater) *license.Site {
	switch {
	case r == nil:
		return nil
	case r.Site.Lat.IsSet() && r.Site.Lon.IsSet():
		return &license.Site{At: signal.Position{Lat: r.Site.Lat.V, Lon: r.Site.Lon.V}}
	case r.Site.Grid.IsSet():
		center, halfLat, halfLon := r.Site.Grid.V.Center()
		return &license.Site{At: center, HalfLat: halfLat, HalfLon: halfLon}
	}
	return nil
}
