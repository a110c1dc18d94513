package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed calling_frequency.md
var callingFrequencyDoc string

// CallingFrequency reports a calling frequency, or one for emergencies, that is used as
// something else.
var CallingFrequency = &review.Rule{
	ID:       "calling-frequency",
	Severity: review.Warn, // everybody listens there for a call, and somebody may need to be heard
	Edition:  2026,
	Doc:      callingFrequencyDoc,
	Run:      callingFrequency,
}

func callingFrequency(p *review.Pass) {
	onCalling(p, func(j judgment, s *license.Segment) (review.Finding, bool) {
		use := j.otherUse(s)
		if use == "" {
			return review.Finding{}, false
		}
		fix := "choose another frequency"
		if fit, split := j.usualSplit(); fit == license.SplitReversed {
			fix = split
		}
		return review.Finding{
			At: j.at, About: []plan.Thing{j.by}, Values: []string{j.on.String(), use},
			What:   fmt.Sprintf("%s, %s: %s MHz is kept for %s", j.transmission, use, s.Center, keptWords[s.Kept]),
			Why:    "who calls there, perhaps in need, is not heard, and who listens there hears noise",
			Fix:    fix,
			Source: segmentSource(s),
		}, true
	})
}

// otherUse says how a transmission uses a calling channel otherwise, by its mode and what
// kind of channel it is alone: what people say on it a plan does not tell.
func (j judgment) otherUse(s *license.Segment) string {
	fm := j.emission.Kind == license.PhoneAnalog
	switch {
	case j.station == license.RepeaterOutput:
		return "the output of a repeater"
	case j.repeater != nil:
		return "the input of a repeater"
	case s.Kept == license.CallingDigital && fm:
		return "in FM"
	case s.Kept != license.CallingDigital && !fm:
		return "in DMR"
	}
	return ""
}

// onCalling reports what find makes of transmissions on calling channels that the law allows.
func onCalling(p *review.Pass, find func(judgment, *license.Segment) (review.Finding, bool)) {
	l := lawOf(p)
	if l == nil {
		return
	}
	told := make(map[sending]bool) // in another mode
	for _, j := range l.judgments {
		key := sending{by: j.by, on: j.on}
		if j.station == license.RepeaterInput || told[key] || !j.lawful() {
			continue
		}
		for _, s := range l.tables.CallingOn(j.on) {
			if f, ok := find(j, s); ok && !told[key] {
				told[key] = true
				p.Report(f)
			}
		}
	}
}
