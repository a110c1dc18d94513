package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed off_band_doubtful.md
var offBandDoubtfulDoc string

// OffBandDoubtful reports a transmission of which the license tables can't tell
// whether it is allowed.
var OffBandDoubtful = &review.Rule{
	ID:       "off-band-doubtful",
	Severity: review.Warn, // a person who knows the place and the law decides
	Edition:  2026,
	Doc:      offBandDoubtfulDoc,
	Run:      offBandDoubtful,
}

func offBandDoubtful(p *review.Pass) {
	l := lawOf(p)
	if l == nil {
		return
	}
	for _, j := range l.judgments {
		if j.outcome != license.Doubtful {
			continue
		}
		o, doubtful := j.first(license.Doubtful, func(r license.Reason) bool { return !barsPlace(r) && !limitsPower(r) })
		if doubtful {
			p.Report(j.doubt(o))
		}
	}
}

// doubt is the finding for a judgment that ended in a doubt.
func (j judgment) doubt(o license.Objection) review.Finding {
	f := j.finding(o)
	f.Values = append(f.Values, o.Reason.String())
	f.What += ", and the tables can't tell for certain"
	f.Why = "what speaks against it was not read in the law, or depends on a permission that the plan does not tell; " + answers
	f.Mend = nil
	f.Fix = "look it up in the rules of your country; if it is allowed, accept the finding with the reason"
	return f
}
