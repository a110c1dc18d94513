package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed tone_not_standard.md
var toneNotStandardDoc string

// ToneNotStandard reports a CTCSS tone that no usual list has.
var ToneNotStandard = &review.Rule{
	ID:       "tone-not-standard",
	Severity: review.Warn, // some equipment offers it, and the repeater may need it
	Edition:  2026,
	Doc:      toneNotStandardDoc,
	Run:      toneNotStandard,
}

// misprint is how near a listed tone is to what is most likely a misprint of it:
// published lists have 177.8 for 177.3, 199.3 for 199.5, 67.1 for 67.0 and 69.4 for
// 69.3 (read in a list for license-free radios and in a chart of tone numbers).
const misprint = signal.CTCSS(5)

func toneNotStandard(p *review.Pass) {
	for _, t := range tonesOf(p.Plan) {
		tone, ok := t.tone.V.CTCSS()
		if !ok || tone.Common() {
			continue
		}
		near := tone.Nearest()
		f := review.Finding{
			At: t.tone.At, About: []plan.Thing{t.record.Thing()}, Values: []string{tone.String(), t.field},
			What:   fmt.Sprintf("%s Hz of %s is no standard tone", tone, t.record.Thing()),
			Why:    "most radios offer no other tones, so members could not set it and would not open the repeater or would hear nothing",
			Fix:    fmt.Sprintf("look the tone up again; the nearest that radios offer is %s", near),
			Source: "EIA/TIA RS-220 and TIA-603 as reprinted, and the 50 tones of Hamlib's COMMON_CTCSS_LIST",
		}
		if max(tone, near)-min(tone, near) <= misprint {
			f.Fix = fmt.Sprintf("did you mean %s?", near)
			f.Mend = mend(t.record, t.field, near.String())
		}
		p.Report(f)
	}
}
