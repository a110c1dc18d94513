package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed band_plan.md
var bandPlanDoc string

// BandPlan reports FM or DMR in a part of a band that the band plan keeps for weak
// signals, CW, beacons or satellites.
var BandPlan = &review.Rule{
	ID:       "band-plan",
	Severity: review.Warn, // a band plan is an agreement, and there may be a reason
	Edition:  2026,
	Doc:      bandPlanDoc,
	Run:      bandPlan,
}

func bandPlan(p *review.Pass) {
	l := lawOf(p)
	if l == nil {
		return
	}
	told := make(map[sending]bool) // in another mode
	for _, j := range l.judgments {
		if j.station == license.RepeaterInput {
			continue
		}
		kept := l.tables.KeptAgainst(j.on, j.emission.NecessaryBandwidth)
		if key := (sending{by: j.by, on: j.on}); len(kept) > 0 && !told[key] && j.lawful() {
			told[key] = true
			p.Report(j.inKept(kept[0]))
		}
	}
}

// keptWords says what a segment is kept for.
var keptWords = [...]string{
	license.WeakSignals: "weak signals", license.Morse: "CW", license.Beacons: "beacons", license.Satellites: "satellites",
	license.CallingFM: "calling in FM", license.CallingDigital: "calling in digital voice", license.CallingSSB: "calling in SSB",
	license.Emergency: "emergencies",
}

func (j judgment) inKept(s *license.Segment) review.Finding {
	return review.Finding{
		At: j.at, About: []plan.Thing{j.by}, Values: []string{j.on.String(), s.Kept.String()},
		What:   fmt.Sprintf("%s: the band plan keeps %s to %s MHz for %s (%s)", j.transmission, s.Low, s.High, keptWords[s.Kept], s.Use),
		Why:    "a voice in FM or DMR there drowns signals that others can hardly hear, near and far",
		Fix:    "choose a frequency in a segment for FM; where local agreement differs, accept the finding with that reason",
		Source: segmentSource(s),
	}
}

// segmentSource cites a segment of a band plan.
func segmentSource(s *license.Segment) string {
	return fmt.Sprintf("%s, %s line %d (%s)", s.Cite(), s.File, s.Line, s.Confidence)
}
