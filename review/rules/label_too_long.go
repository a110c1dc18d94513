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
	channels := make(map[*plan.Channel][]*plan.Radio)
	zones := make(map[*plan.Zone][]*plan.Radio)
	for _, fit := range p.Expansion.Fits {
		most := fit.Radio.LabelLength.Or(0)
		if most == 0 {
			continue
		}
		for _, c := range fit.Channels {
			if characters(c.Label) > most {
				channels[c] = append(channels[c], fit.Radio)
			}
		}
		for _, z := range fit.Zones {
			if characters(z.Zone.Called()) > most && !z.Zone.Label.Bad {
				zones[z.Zone] = append(zones[z.Zone], fit.Radio)
			}
		}
	}
	for _, c := range p.Expansion.Channels {
		if parts := partsOf(p.Plan, c); len(channels[c]) > 0 && len(parts) > 0 {
			p.Report(tooLong(c.Thing(), c.Label, parts, channels[c]))
		}
	}
	for _, z := range p.Expansion.Zones {
		if radios := zones[z.Zone]; len(radios) > 0 {
			p.Report(tooLong(z.Zone.Thing(), z.Zone.Called(), []part{partOf(z.Zone, z.Zone.Label)}, radios))
		}
	}
}

// tooLong says of a label which radios cut it, at the part that there is most to
// take from.
func tooLong(of plan.Thing, label string, parts []part, radios []*plan.Radio) review.Finding {
	long := longest(parts)
	fewest := radios[0]
	for _, r := range radios {
		if r.LabelLength.V < fewest.LabelLength.V {
			fewest = r
		}
	}
	over := characters(label) - fewest.LabelLength.V
	f := review.Finding{
		At: long.at, About: []plan.Thing{of}, Values: labels(parts),
		What: fmt.Sprintf("the label %q of %s has %d characters, too long for %s", label, of, characters(label), several(widths(radios))),
		Why:  fmt.Sprintf("members would see %q", (&plan.Fit{Radio: fewest}).Cut(label)),
		Fix:  fmt.Sprintf("make it %d shorter", over),
	}
	if long.of != of {
		f.About = append(f.About, long.of)
		f.Fix = "shorten the labels that it is made of, or give the channel one of its own"
	}
	if long.of != of && over < characters(long.text) {
		f.Fix = fmt.Sprintf("make the label of %s (%q) %d shorter, or give the channel a label of its own", long.of, long.text, over)
	}
	return f
}

func characters(text string) int { return utf8.RuneCountInString(text) }
