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

//go:embed dcs_same_signal.md
var dcsSameSignalDoc string

// DCSSameSignal reports repeaters or channels on the same frequencies that have
// different DCS codes of one signal.
var DCSSameSignal = &review.Rule{
	ID:       "dcs-same-signal",
	Severity: review.Warn, // they look kept apart and are not
	Edition:  2026,
	Doc:      dcsSameSignalDoc,
	Run:      dcsSameSignal,
}

// A coded is a repeater or a channel that is told from others on its frequencies by a
// DCS code.
type coded struct {
	record  plan.Record
	channel *plan.Channel // nil for a repeater
	code    plan.Value[signal.Tone]
}

// heardBy is what those have in common that hear each other in spite of their codes.
type heardBy struct {
	kind plan.Kind
	on   pair
	code signal.DCS
}

func dcsSameSignal(p *review.Pass) {
	sharing := make(map[heardBy][]coded)
	add := func(kind plan.Kind, on pair, c coded) {
		if code, ok := c.code.V.DCS(); ok {
			key := heardBy{kind, on, code.Canonical()}
			sharing[key] = append(sharing[key], c)
		}
	}
	for on, repeaters := range pairsOf(p.Plan) {
		for _, r := range repeaters {
			add(plan.KindRepeater, on, coded{r, nil, r.FM.ToneSend})
		}
	}
	for _, c := range p.Expansion.Channels {
		if c.Spec == nil || c.Repeater != nil || c.Mode != plan.ModeFM || unread(p.Plan, c) || c.Spec.Path.Written() {
			continue
		}
		tone := c.Spec.FM.ToneSend
		if c.Transmit == 0 {
			tone = c.Spec.FM.ToneReceive
		}
		add(plan.KindChannel, pair{c.Receive, c.Transmit}, coded{c.Spec, c, tone})
	}
	for _, set := range sharing {
		if looksApart(set) {
			p.Report(sameSignal(set))
		}
	}
}

// looksApart reports whether two of a set have different spellings. Channels that
// differ in nothing else are the matter of duplicate-channel.
func looksApart(set []coded) bool {
	for _, c := range set[1:] {
		if c.code.V != set[0].code.V && (c.channel == nil || doingOf(c.channel) != doingOf(set[0].channel)) {
			return true
		}
	}
	return false
}

// sameSignal is the finding for a set. It stands at the code that comes last in the
// files.
func sameSignal(set []coded) review.Finding {
	slices.SortFunc(set, func(a, b coded) int {
		return cmp.Or(a.code.At.Compare(b.code.At), strings.Compare(a.record.Thing().Key, b.record.Thing().Key))
	})
	last := len(set) - 1
	f := review.Finding{
		At:     set[last].code.At,
		Why:    "a receiver cannot know where the repeated word begins, so each of them opens to the others",
		Fix:    "give one of them a code of another signal; \"passband show\" names the spellings of a code",
		Source: "computed by the Golay (23,12) code; agrees with published tables of equal DCS codes",
	}
	var spellings []string
	for i, c := range set {
		f.About = append(f.About, c.record.Thing())
		spellings = append(spellings, c.code.V.String())
		if i != last {
			f.Also = append(f.Also, review.Related{At: c.code.At, Text: fmt.Sprintf("%s has %s", c.record.Thing(), c.code.V)})
		}
	}
	slices.SortFunc(f.About, compareThings)
	slices.Sort(spellings)
	spellings = slices.Compact(spellings)
	f.Values = spellings
	f.What = fmt.Sprintf("%s is on the frequencies of %s, and %s are one signal", set[last].record.Thing(), set[0].record.Thing(), several(spellings))
	if n := len(set) - 2; n > 0 {
		f.What = fmt.Sprintf("%s is on the frequencies of %s and %d more, and %s are one signal", set[last].record.Thing(), set[0].record.Thing(), n, several(spellings))
	}
	return f
}
