package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed zone_fits_no_radio.md
var zoneFitsNoRadioDoc string

// ZoneFitsNoRadio reports a zone that no class of radio can use.
var ZoneFitsNoRadio = &review.Rule{
	ID:       "zone-fits-no-radio",
	Severity: review.Warn, // no member gets it
	Edition:  2026,
	Doc:      zoneFitsNoRadioDoc,
	Run:      zoneFitsNoRadio,
}

func zoneFitsNoRadio(p *review.Pass) {
	fits := fitsOf(p.Expansion)
	if len(fits) == 0 || len(fits) < len(p.Expansion.Fits) {
		return // there is no radio, or one that may hold it
	}
	used := usedZones(fits)
	left := make([]map[*plan.Channel]string, len(fits))
	for i, fit := range fits {
		left[i] = reasons(fit)
	}
	for _, z := range p.Expansion.Zones {
		if len(z.Members) == 0 || used[z.Zone] {
			continue
		}
		if f, ok := unfit(z, fits, left); ok {
			p.Report(f)
		}
	}
}

// unfit says of a zone that no radio uses which of them carry it, and why they
// cannot use its first channel. Where one of them can use nothing at all, that
// radio is the fault.
func unfit(z *plan.ZoneChannels, fits []*plan.Fit, left []map[*plan.Channel]string) (review.Finding, bool) {
	f := review.Finding{
		At: z.Zone.Place(), About: []plan.Thing{z.Zone.Thing()},
		What:   fmt.Sprintf("no class of radio carries %s", z.Zone.Thing()),
		Why:    "no member would get it",
		Fix:    "add it to the zones of a radio, or take it out",
		Source: "the zones, bands and modes that the plan states for its radios",
	}
	first := z.Members[0].Channel
	for i, fit := range fits {
		if !fit.Carries(z.Zone) {
			continue
		}
		if len(fit.Zones) == 0 {
			return f, false
		}
		f.Also = append(f.Also, review.Related{
			At: fit.Radio.Place(), Text: fmt.Sprintf("%s: %s (%s)", fit.Radio.Thing(), left[i][first], first.Thing()),
		})
	}
	if len(f.Also) > 0 {
		f.What = fmt.Sprintf("no class of radio that carries %s can use any of its channels", z.Zone.Thing())
		f.Fix = "look at the bands and modes of the radios and at the channels of the zone"
	}
	return f, true
}

// usedZones gives the zones of which some radio can use a channel.
func usedZones(fits []*plan.Fit) map[*plan.Zone]bool {
	used := make(map[*plan.Zone]bool)
	for _, fit := range fits {
		for _, z := range fit.Zones {
			used[z.Zone] = true
		}
	}
	return used
}
