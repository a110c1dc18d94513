package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed channel_fits_no_radio.md
var channelFitsNoRadioDoc string

// ChannelFitsNoRadio reports a channel of a zone that no class of radio can use.
var ChannelFitsNoRadio = &review.Rule{
	ID:       "channel-fits-no-radio",
	Severity: review.Warn, // no member gets it
	Edition:  2026,
	Doc:      channelFitsNoRadioDoc,
	Run:      channelFitsNoRadio,
}

func channelFitsNoRadio(p *review.Pass) {
	fits := fitsOf(p.Expansion)
	if len(fits) == 0 || len(fits) < len(p.Expansion.Fits) {
		return // there is no radio, or one that may hold it
	}
	held := make(map[*plan.Channel]bool)
	for _, fit := range fits {
		for _, z := range fit.Zones {
			for _, c := range z.Channels {
				held[c] = true
			}
		}
	}
	why := make(map[*plan.Channel][]review.Related)
	for _, fit := range fits {
		tellWhy(p.Expansion, fit, held, why)
	}
	for _, c := range p.Expansion.Channels {
		if len(why[c]) == 0 || unread(p.Plan, c) {
			continue
		}
		p.Report(review.Finding{
			At: c.At, About: []plan.Thing{c.Thing()}, Also: why[c],
			What:   fmt.Sprintf("no class of radio that carries a zone with %s can use it", c.Thing()),
			Why:    "no member would get it",
			Fix:    "look at its frequency and mode, and at the bands and modes of the radios",
			Source: "the bands and modes that the plan states for its radios",
		})
	}
}

// tellWhy adds why a radio cannot use the channels of its zones that no radio
// can. A zone of which it can use nothing is the matter of other rules.
func tellWhy(x *plan.Expansion, fit *plan.Fit, held map[*plan.Channel]bool, why map[*plan.Channel][]review.Related) {
	uses := usedZones([]*plan.Fit{fit})
	left := reasons(fit)
	for _, z := range x.Zones {
		if !uses[z.Zone] {
			continue
		}
		for _, m := range z.Members {
			if reason := left[m.Channel]; reason != "" && !held[m.Channel] {
				why[m.Channel] = append(why[m.Channel], review.Related{At: fit.Radio.Place(), Text: fit.Radio.Thing().String() + ": " + reason})
				delete(left, m.Channel) // once a radio
			}
		}
	}
}
