package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed beside_calling.md
var besideCallingDoc string

// BesideCalling reports a simplex channel that overlaps a calling frequency without being
// it.
var BesideCalling = &review.Rule{
	ID:       "beside-calling",
	Severity: review.Note, // it is lawful, and only a neighbor of a channel where people call
	Edition:  2026,
	Doc:      besideCallingDoc,
	Run:      besideCalling,
}

func besideCalling(p *review.Pass) {
	onCalling(p, func(j judgment, s *license.Segment) (review.Finding, bool) {
		if j.on == s.Center || j.otherUse(s) != "" {
			return review.Finding{}, false
		}
		off := max(j.on-s.Center, s.Center-j.on)
		return review.Finding{
			At: j.at, About: []plan.Thing{j.by}, Values: []string{j.on.String()},
			What:   fmt.Sprintf("%s: it is %s kHz beside %s MHz, which is kept for %s", j.transmission, off.KHz(), s.Center, keptWords[s.Kept]),
			Why:    "the two disturb each other, and who calls there may not be heard",
			Fix:    fmt.Sprintf("write %s to call there, or choose a frequency farther away to talk", s.Center),
			Source: segmentSource(s),
		}, true
	})
}
