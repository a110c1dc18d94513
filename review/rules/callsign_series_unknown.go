package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed callsign_series_unknown.md
var callsignSeriesUnknownDoc string

// CallsignSeriesUnknown reports a callsign of a series that no country has.
var CallsignSeriesUnknown = &review.Rule{
	ID:       "callsign-series-unknown",
	Severity: review.Note, // such calls are heard, and the table may be older than the series
	Edition:  2026,
	Doc:      callsignSeriesUnknownDoc,
	Run:      callsignSeriesUnknown,
}

func callsignSeriesUnknown(p *review.Pass) {
	look := func(r plan.Record, call plan.Value[signal.Callsign], of string) {
		p.Report(review.Finding{
			At: call.At, About: []plan.Thing{r.Thing()}, Values: []string{call.V.String()},
			What:   fmt.Sprintf("the callsign %s of %s is of a series that no country has", call.V, of),
			Why:    "a callsign tells the country that licensed the station, and a slip of the pen is easily made",
			Fix:    "check it against the license",
			Source: "the ITU table of international call sign series (RR Appendix 42), export of December 2024",
		})
	}
	for _, r := range p.Plan.Repeaters.All() {
		if ofNoSeries(r.Callsign) {
			look(r, r.Callsign, r.Thing().String())
		}
	}
	for _, o := range peopleWith(p.Plan, func(o *plan.Operator) bool { return ofNoSeries(o.Callsign) }) {
		look(o, o.Callsign, "operator "+o.ID.V.String())
	}
}

// ofNoSeries reports whether a callsign has the form of one and no country. One of
// another form is the matter of callsign-form.
func ofNoSeries(call plan.Value[signal.Callsign]) bool {
	if !call.IsSet() || call.V.ITUForm() != nil {
		return false
	}
	_, known := call.V.Country()
	return !known
}
