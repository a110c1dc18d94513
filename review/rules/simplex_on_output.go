package rules

import (
	_ "embed"

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
	f := onStation(t, on, "sends")
	f.Why = "whoever talks there sends over the repeater, and who listens to the repeater hears neither"
	f.Fix = "choose a simplex frequency that no repeater sends on; to hear the repeater, use its talk path or a channel that only receives"
	return f
}
