package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed cut_off_decimals.md
var cutOffDecimalsDoc string

// CutOffDecimals reports a frequency whose last decimals were likely left out.
var CutOffDecimals = &review.Rule{
	ID:       "cut-off-decimals",
	Severity: review.Warn, // the frequency is most likely another; an odd one is lawful all the same
	Edition:  2026,
	Doc:      cutOffDecimalsDoc,
	Run:      cutOffDecimals,
}

func cutOffDecimals(p *review.Pass) {
	for _, w := range tunedFrequencies(p) {
		meant := uncut(w.on)
		if meant == 0 || w.listen && airband(w.on) || w.key == "split" && uncut(w.on-splitOf(p.Plan, w)) != 0 {
			continue
		}
		off := max(meant-w.on, w.on-meant)
		p.Report(review.Finding{
			At: w.at, About: []plan.Thing{w.by}, Values: []string{w.key, w.on.String()},
			What:   fmt.Sprintf("%s: %s MHz (%s) is on no channel step in use, and %d Hz from %s, which is", w.by, w.on, w.key, off, meant),
			Why:    "channels 6.25 and 12.5 kHz apart need five and four decimals; with fewer, a radio is off the others' frequency",
			Fix:    fmt.Sprintf("write %s, if that is meant%s", meant, ofSplit(w)),
			Source: "arithmetic: multiples of 2.5 and 6.25 kHz; that decimals are left out: common practice, no source",
			Mend:   retune(p.Plan, w, meant),
		})
	}
}

// airband tells whether aircraft talk there on steps of 8.33 kHz, which no decimals write
// out. Source: ICAO Annex 10, from memory.
func airband(f signal.Hertz) bool { return 117_975_000 <= f && f <= 137_000_000 }

// splitOf gives what a split adds to the output that it leads from: an output with cut
// decimals takes its input along, and is the one cause.
func splitOf(p *plan.Plan, w tuned) signal.Hertz {
	r, _ := p.Repeaters.Find(w.by.Key)
	return signal.Hertz(r.Split.V)
}

func ofSplit(w tuned) string {
	if w.key == "split" {
		return " to be the input"
	}
	return ""
}
