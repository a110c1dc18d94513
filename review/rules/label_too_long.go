package rules

import (
	_ "embed"
	"fmt"
	"unicode/utf8"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed label_too_long.md
var labelTooLongDoc string

// LabelTooLong reports the label of a channel or a zone that is longer than a
// class of radio shows.
var LabelTooLong = &review.Rule{
	ID:       "label-too-long",
	Severity: review.Warn, // the radio cuts it, and people guess the rest
	Edition:  2026,
	Doc:      labelTooLongDoc,
	Run:      labelTooLong,
}

func labelTooLong(p *review.Pass) {
	found := make(map[plan.Thing]*excess)
	for _, fit := range p.Expansion.Fits {
		most := fit.Radio.LabelLength.Or(0)
		if most == 0 {
			continue
		}
		for _, c := range fit.Channels {
			if characters(c.Label) > most {
				blame(found, partsOf(p.Plan, c), c.Thing(), c.Label, fit.Radio)
			}
		}
		for _, z := range fit.Zones {
			if characters(z.Zone.Called()) > most {
				blame(found, readable(partOf(z.Zone, z.Zone.Label)), z.Zone.Thing(), z.Zone.Called(), fit.Radio)
			}
		}
	}
	for _, e := range found {
		p.Report(e.finding())
	}
}

// An excess is a part that makes labels too long, and the worst of them.
type excess struct {
	part   part
	labels map[plan.Thing]bool // the channels or the zone that show it
	radios []*plan.Radio

	of    plan.Thing
	label string
	over  int
	cut   string
}

// blame charges a label that is too long to the part that there is most to take from.
func blame(found map[plan.Thing]*excess, parts []part, of plan.Thing, label string, r *plan.Radio) {
	if len(parts) == 0 {
		return // loading has told of it
	}
	long := longest(parts)
	e := found[long.of]
	if e == nil {
		e = &excess{part: long, labels: make(map[plan.Thing]bool)}
		found[long.of] = e
	}
	e.labels[of] = true
	if n := len(e.radios); n == 0 || e.radios[n-1] != r {
		e.radios = append(e.radios, r)
	}
	if over := characters(label) - r.LabelLength.V; over > e.over {
		e.of, e.label, e.over, e.cut = of, label, over, (&plan.Fit{Radio: r}).Cut(label)
	}
}

func (e *excess) finding() review.Finding {
	f := review.Finding{
		At: e.part.at, About: []plan.Thing{e.part.of}, Values: labels([]part{e.part}),
		What:   fmt.Sprintf("the label %q of %s has %d characters, too long for %s", e.label, e.of, characters(e.label), several(widths(e.radios))),
		Why:    fmt.Sprintf("members would see %q", e.cut),
		Fix:    fmt.Sprintf("make it %d shorter", e.over),
		Source: "the label length that the plan states for the radio",
	}
	if n := len(e.labels); n > 1 {
		f.What = fmt.Sprintf("%q, the label of %s, makes %d labels too long for %s; %q of %s has %d characters",
			e.part.text, e.part.of, n, several(widths(e.radios)), e.label, e.of, characters(e.label))
	}
	switch {
	case e.part.of == e.of:
	case e.over < characters(e.part.text):
		f.Fix = fmt.Sprintf("make the label of %s (%q) %d shorter, or give the channel a label of its own", e.part.of, e.part.text, e.over)
	default:
		f.Fix = "shorten the labels that it is made of, or give the channel one of its own"
	}
	return f
}

func characters(text string) int { return utf8.RuneCountInString(text) }
