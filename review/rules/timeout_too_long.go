package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed timeout_too_long.md
var timeoutTooLongDoc string

// TimeoutTooLong reports a DMR channel that may send for longer than the standard lets it.
var TimeoutTooLong = &review.Rule{
	ID:       "timeout-too-long",
	Severity: review.Warn, // radios cut it, or let it be; nobody is put off frequency
	Edition:  2026,
	Doc:      timeoutTooLongDoc,
	Run:      timeoutTooLong,
}

// longestDMR is the longest time-out of a DMR transmission, in seconds (T_TO, ETSI TS
// 102 361-2 table A.1, second-hand).
const longestDMR = 180

func timeoutTooLong(p *review.Pass) {
	report := func(r plan.Record, timeout plan.Value[int]) {
		p.Report(review.Finding{
			At: timeout.At, About: []plan.Thing{r.Thing()}, Values: []string{fmt.Sprint(timeout.V)},
			What:   fmt.Sprintf("%s may send DMR for %d s, and the standard ends a transmission after %d s", r.Thing(), timeout.V, longestDMR),
			Why:    "radios take no longer time, so members are cut off where the plan says that they are not, or the repeater cuts them off",
			Fix:    fmt.Sprintf("write %d or less, or 0 for no limit in the radio", longestDMR),
			Source: "T_TO, ETSI TS 102 361-2 table A.1 (second-hand)",
		})
	}
	for _, r := range p.Plan.Repeaters.All() {
		if r.DMR.Present.IsSet() && r.Extra.Timeout.Or(0) > longestDMR {
			report(r, r.Extra.Timeout)
		}
	}
	for _, c := range p.Plan.Channels.All() {
		if c.Extra.Timeout.Or(0) <= longestDMR {
			continue
		}
		if made, ok := p.Expansion.Find(c.Key.V); ok && made.Mode == plan.ModeDMR && made.Transmit != 0 {
			report(c, c.Extra.Timeout)
		}
	}
}
