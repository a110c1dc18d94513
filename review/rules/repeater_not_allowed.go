package rules

import (
	_ "embed"

	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed repeater_not_allowed.md
var repeaterNotAllowedDoc string

// RepeaterNotAllowed reports a repeater in a range that is closed to repeaters.
var RepeaterNotAllowed = &review.Rule{
	ID:       "repeater-not-allowed",
	Severity: review.Block, // such ranges are kept for weak signals and satellites
	Edition:  2026,
	Doc:      repeaterNotAllowedDoc,
	Run:      repeaterNotAllowed,
}

func repeaterNotAllowed(p *review.Pass) {
	l := lawOf(p)
	if l == nil {
		return
	}
	type frequency struct {
		by string
		on signal.Hertz
	}
	told := make(map[frequency]bool) // in another mode
	for _, j := range l.repeaters {
		o, barred := j.first(license.Denied, barsStation)
		key := frequency{j.by.Key, j.on}
		if !barred || told[key] {
			continue
		}
		told[key] = true
		f := j.finding(o)
		f.Values = f.Values[:1]
		f.Why = "the range is kept for what a repeater would drown, such as weak signals and satellites; " + answers
		p.Report(f)
	}
}
