package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed access_impolite.md
var accessImpoliteDoc string

// AccessImpolite reports a DMR channel of a repeater on which radios send without
// listening first.
var AccessImpolite = &review.Rule{
	ID:       "access-impolite",
	Severity: review.Note, // a channel for emergencies may be meant to
	Edition:  2026,
	Doc:      accessImpoliteDoc,
	Run:      accessImpolite,
}

func accessImpolite(p *review.Pass) {
	look := func(r plan.Record, access plan.Value[string]) {
		if access.Or("") != "impolite" {
			return
		}
		p.Report(review.Finding{
			At: access.At, About: []plan.Thing{r.Thing()}, Values: []string{access.V},
			What:   fmt.Sprintf("%s lets radios send on a repeater's DMR channel whoever is speaking", r.Thing()),
			Why:    "who starts to send over somebody else breaks that call, and often nobody hears either",
			Fix:    "write polite to own color code, unless the channel is for emergencies",
			Source: "the words are those of ETSI TS 102 361 (second-hand); that the usual value on a repeater is polite to own color code is common practice, no source",
		})
	}
	for _, r := range p.Plan.Repeaters.All() {
		look(r, r.DMR.Access)
	}
	for _, c := range p.Plan.Channels.All() {
		if made, ok := p.Expansion.Find(c.Key.V); ok && made.Repeater != nil && made.Transmit != 0 {
			look(c, c.DMR.Access)
		}
	}
}
