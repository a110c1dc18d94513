package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed dcs_not_standard.md
var dcsNotStandardDoc string

// DCSNotStandard reports a DCS code that radios do not offer.
var DCSNotStandard = &review.Rule{
	ID:       "dcs-not-standard",
	Severity: review.Warn, // some equipment takes any code
	Edition:  2026,
	Doc:      dcsNotStandardDoc,
	Run:      dcsNotStandard,
}

func dcsNotStandard(p *review.Pass) {
	for _, t := range tonesOf(p.Plan) {
		code, ok := t.tone.V.DCS()
		if !ok || code.Standard() {
			continue
		}
		f := review.Finding{
			At: t.tone.At, About: []plan.Thing{t.record.Thing()}, Values: []string{code.String(), t.field},
			What:   fmt.Sprintf("%s of %s is none of the 104 DCS codes that radios offer, and no other spelling of one", code, t.record.Thing()),
			Why:    "most radios offer no other codes, so members could not set it",
			Fix:    "look the code up again, and mind its order: DCS digits are written from left to right",
			Source: "the 104 codes of Hamlib's src/tones.h; equal spellings are computed by the Golay (23,12) code",
		}
		if same := code.Canonical(); same.Standard() {
			f.What = fmt.Sprintf("%s of %s is none of the 104 DCS codes that radios offer, but another spelling of %s", code, t.record.Thing(), same)
			f.Fix = fmt.Sprintf("write %s, which is the same signal on the air", same)
			f.Mend = mend(t.record, t.field, same.String())
		}
		p.Report(f)
	}
}
