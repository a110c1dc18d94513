package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed near_band_edge.md
var nearBandEdgeDoc string

// NearBandEdge reports a transmission so near to an edge that a transmitter a little off
// its frequency would be over it.
var NearBandEdge = &review.Rule{
	ID:       "near-band-edge",
	Severity: review.Note, // it is lawful as long as the transmitter is on its frequency
	Edition:  2026,
	Doc:      nearBandEdgeDoc,
	Run:      nearBandEdge,
}

func nearBandEdge(p *review.Pass) {
	l := lawOf(p)
	if l == nil {
		return
	}
	told := make(map[sending]bool) // in another mode
	for _, j := range l.judgments {
		key := sending{by: j.by, on: j.on}
		if j.outcome != license.Allowed || len(j.verdict.Rows) == 0 || j.station == license.RepeaterInput || j.verdict.Margin >= drift(j.on) || told[key] {
			continue
		}
		told[key] = true
		p.Report(j.nearEdge())
	}
}

// drift is how far a transmitter may be off: 2.5 parts per million, and 300 Hz for what
// its modulation is wider than it should be.
func drift(on signal.Hertz) signal.Hertz { return on/400_000 + 300 }

func (j judgment) nearEdge() review.Finding {
	return review.Finding{
		At: j.at, About: []plan.Thing{j.by}, Values: []string{j.on.String()},
		What:   fmt.Sprintf("%s: it ends %s kHz from an edge of what is allowed", j.transmission, j.verdict.Margin.KHz()),
		Why:    fmt.Sprintf("a transmitter may be %s kHz off its frequency, and would be over the edge; %s", drift(j.on).KHz(), answers),
		Fix:    "move it a channel away from the edge, or use narrow FM",
		Source: "common practice, no source: a frequency error of 2.5 parts per million, and 300 Hz; edge: " + rowSource(j.verdict.Rows[0]),
	}
}
