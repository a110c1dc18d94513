package signal

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"
)

// mccCSV is the mobile country codes of ITU-T E.212; each row names its source.
//
//go:embed mcc.csv
var mccCSV string

// prefixCSV is the ITU table of international call sign series (RR Appendix 42); each
// row names its source.
//
//go:embed callsign-prefixes.csv
var prefixCSV string

// countryCodes maps a mobile country code of three digits to its country.
var countryCodes = sync.OnceValue(func() map[string]string {
	countries := map[string]string{}
	for _, row := range records(mccCSV) {
		countries[row[0]] = row[1]
	}
	return countries
})

// A series is a range of call sign beginnings, three characters each, and who has it.
type series struct{ from, to, country string }

var callsignSeries = sync.OnceValue(func() []series {
	var all []series
	for _, row := range records(prefixCSV) {
		all = append(all, series{from: row[0], to: row[1], country: row[2]})
	}
	return all
})

// records returns the rows of an embedded table below its header. Only a broken build
// can make it panic.
func records(table string) [][]string {
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		panic("signal: embedded table: " + err.Error())
	}
	return rows[1:]
}
