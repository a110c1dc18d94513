package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed simplex_on_output.md
var simplexOnOutputDoc string

// SimplexOnOutput reports a simplex channel that overlaps the output of a repeater of the
// plan.
var SimplexOnOutput = &review.Rule{
	ID:       "simplex-on-output",
	Severity: review.Warn, // members talking there disturb those who listen to the repeater
	Edition:  2026,
	Doc:      simplexOnOutputDoc,
	Run:      simplexOnOutput,
}

func simplexOnOutput(p *review.Pass) {
	outputs := stationsOf(p.Plan, license.RepeaterOutput)
	for _, t := range sentByMembers(p) {
		if t.repeater == nil {
			if on := outputs.overlapping(t); len(on) > 0 {
				p.Report(onOutput(t, on))
			}
		}
	}
}

func onOutput(t *transmission, on []*transmission) review.Finding {
	nearest := slices.MaxFunc(on, func(a, b *transmission) int { return cmp.Compare(common(t, a), common(t, b)) })
	f := review.Finding{
		At: t.at, About: []plan.Thing{t.by, nearest.by}, Values: []string{t.on.String()},
		What: fmt.Sprintf("%s, and %s sends on %s MHz: they share %s kHz", t, nearest.by, nearest.on, (common(t, nearest) / 2).KHz()),
		Why:  "whoever talks there sends over the repeater, and who listens to the repeater hears neither",
		Fix:  "choose a simplex frequency that no repeater sends on; to hear the repeater, use its talk path or a channel that only receives",

		Source: "common practice, no source; widths: 47 CFR 2.202(g) for FM, measured for DMR",
	}
	const most = 3
	for _, output := range on[:min(most, len(on))] {
		f.Also = append(f.Also, review.Related{At: output.at, Text: fmt.Sprintf("%s sends on %s MHz", output.by, output.on)})
	}
	return f
}
