package rules

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed radio_id_country.md
var radioIDCountryDoc string

// RadioIDCountry reports a radio ID of another country than the callsign's.
var RadioIDCountry = &review.Rule{
	ID:       "radio-id-country",
	Severity: review.Note, // people move, and countries use codes that are not theirs
	Edition:  2026,
	Doc:      radioIDCountryDoc,
	Run:      radioIDCountry,
}

// idCountriesCSV says of each code that a radio ID may begin with whose it is, and
// which series of callsigns its holders have, as the ITU names them. The codes are
// those of ITU-T E.212 (npm package mcc-mnc-list 1.1.11), and three that amateurs use
// beyond it (page "DMR IDs" of a repeater builder's wiki, revision 2021-06-30). Which
// series a territory uses follows from who administers it.
//
//go:embed id_countries.csv
var idCountriesCSV string

// An idCountry is whose a code is. One of no country, for tests and between countries,
// has no series.
type idCountry struct {
	name   string
	series []string
}

var idCountries = sync.OnceValue(func() map[string]idCountry {
	rows, err := csv.NewReader(strings.NewReader(idCountriesCSV)).ReadAll()
	if err != nil {
		panic("rules: embedded table: " + err.Error()) // a broken build
	}
	countries := make(map[string]idCountry)
	for _, row := range rows[1:] {
		c := idCountry{name: row[1]}
		if row[2] != "" {
			c.series = strings.Split(row[2], "; ")
		}
		countries[row[0]] = c
	}
	return countries
})

// idCode gives the country code of a radio ID of six or seven digits, else "".
func idCode(id signal.RadioID) string {
	if digits := id.String(); len(digits) == 6 || len(digits) == 7 {
		return digits[:3]
	}
	return ""
}

func radioIDCountry(p *review.Pass) {
	odd := func(o *plan.Operator) bool { return o.ID.IsSet() && idCode(o.ID.V) != "" && foreign(o) != "" }
	for _, o := range peopleWith(p.Plan, odd) {
		f := oddID(o, foreign(o))
		f.Values = append(f.Values, o.Callsign.V.String())
		f.Why = "one of the two may be a slip, and a radio shows who speaks by the ID"
		f.Fix = "look both up; nothing is to do if they are as they were assigned"
		f.Source = "ITU-T E.212 codes (npm package mcc-mnc-list 1.1.11), ITU Radio Regulations Appendix 42 (December 2024); that an ID begins with the code is the registries' convention"
		p.Report(f)
	}
}

// foreign says in which way the code of an ID is not that of the callsign, or "".
func foreign(o *plan.Operator) string {
	code := idCode(o.ID.V)
	country, known := idCountries()[code]
	if !known {
		return fmt.Sprintf("begins with %s, a code that the list of countries does not have", code)
	}
	series, ok := o.Callsign.V.Country()
	if !ok || len(country.series) == 0 {
		return ""
	}
	// A beginning that fits several countries is one of them.
	if slices.ContainsFunc(strings.Split(series, " or "), func(s string) bool { return slices.Contains(country.series, s) }) {
		return ""
	}
	return fmt.Sprintf("begins with %s, the code of %s, and the callsign is of %s", code, country.name, series)
}
