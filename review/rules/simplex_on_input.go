package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"sort"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed simplex_on_input.md
var simplexOnInputDoc string

// SimplexOnInput reports a simplex channel that overlaps the input of a repeater of the
// plan.
var SimplexOnInput = &review.Rule{
	ID:       "simplex-on-input",
	Severity: review.Warn, // members talking there open the repeater, or are talked over by those who do
	Edition:  2026,
	Doc:      simplexOnInputDoc,
	Run:      simplexOnInput,
}

func simplexOnInput(p *review.Pass) {
	inputs := stationsOf(p.Plan, license.RepeaterInput)
	for _, t := range sentByMembers(p) {
		if t.repeater == nil {
			if on := inputs.overlapping(t); len(on) > 0 {
				p.Report(onInput(t, on))
			}
		}
	}
}

// occupied are what repeaters hear, or what they send on, by frequency.
type occupied struct {
	all    []*transmission
	widest signal.Hertz
}

// stationsOf gives the inputs of the repeaters of a plan, or their outputs.
func stationsOf(p *plan.Plan, station license.Station) occupied {
	var in occupied
	for _, t := range repeaterTransmissions(p) {
		if t.station == station {
			in.all = append(in.all, t)
			in.widest = max(in.widest, t.emission.NecessaryBandwidth)
		}
	}
	slices.SortStableFunc(in.all, func(a, b *transmission) int { return cmp.Compare(a.on, b.on) })
	return in
}

// overlapping gives the frequencies, one a repeater, that a transmission overlaps with any of
// its width.
func (in occupied) overlapping(t *transmission) []*transmission {
	reach := (t.emission.NecessaryBandwidth + in.widest) / 2
	first := sort.Search(len(in.all), func(i int) bool { return in.all[i].on > t.on-reach })
	var found []*transmission
	for _, input := range in.all[first:] {
		if input.on >= t.on+reach || len(found) > mostInputs {
			break
		}
		if common(t, input) > 0 && !slices.ContainsFunc(found, func(f *transmission) bool { return f.by == input.by }) {
			found = append(found, input)
		}
	}
	return found
}

// mostInputs bounds the work where a hostile plan puts thousands of inputs on one frequency.
const mostInputs = 16

// common gives how much of their widths two transmissions share, in half hertz.
func common(a, b *transmission) signal.Hertz {
	return min(2*a.on+a.emission.NecessaryBandwidth, 2*b.on+b.emission.NecessaryBandwidth) -
		max(2*a.on-a.emission.NecessaryBandwidth, 2*b.on-b.emission.NecessaryBandwidth)
}

func onInput(t *transmission, on []*transmission) review.Finding {
	f := onStation(t, on, "listens")
	f.Why = "without the tone it disturbs those who use the repeater and cannot hear it; with the tone it opens it"
	f.Fix = "choose a simplex frequency that no repeater listens on"
	return f
}

// onStation is the finding for a simplex channel that overlaps what repeaters do on their frequencies.
func onStation(t *transmission, on []*transmission, does string) review.Finding {
	nearest := slices.MaxFunc(on, func(a, b *transmission) int { return cmp.Compare(common(t, a), common(t, b)) })
	f := review.Finding{
		At: t.at, About: []plan.Thing{t.by, nearest.by}, Values: []string{t.on.String()},
		What:   fmt.Sprintf("%s, and %s %s on %s MHz: they share %s kHz", t, nearest.by, does, nearest.on, (common(t, nearest) / 2).KHz()),
		Source: "common practice, no source; widths: 47 CFR 2.202(g) for FM, measured for DMR",
	}
	const most = 3
	for _, other := range on[:min(most, len(on))] {
		f.Also = append(f.Also, review.Related{At: other.at, Text: fmt.Sprintf("%s %s on %s MHz", other.by, does, other.on)})
	}
	return f
}
