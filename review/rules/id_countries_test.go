package rules

import (
	"encoding/csv"
	"os"
	"testing"
)

// TestIDCountries holds the table against the two that package signal rests on: each
// mobile country code is there once with the same country, and each series is one that
// the ITU names.
func TestIDCountries(t *testing.T) {
	series := make(map[string]bool)
	for _, row := range table(t, "callsign-prefixes.csv") {
		series[row[2]] = true
	}
	for code, c := range idCountries() {
		for _, s := range c.series {
			if !series[s] {
				t.Errorf("%s of %s: the ITU names no series of %q", code, c.name, s)
			}
		}
	}
	kinds := make(map[string]string)
	for _, row := range table(t, "mcc.csv") {
		kinds[row[0]] = row[4]
		if c := idCountries()[row[0]]; c.name != row[1] {
			t.Errorf("%s is of %q, and E.212 says %q", row[0], c.name, row[1])
		}
	}
	for code, c := range idCountries() {
		kind, listed := kinds[code]
		if national := kind == "national" || !listed; national != (len(c.series) > 0) && c.name != "Kosovo" { // Z6 is not in the ITU's table
			t.Errorf("%s of %s is %s and has the series %q", code, c.name, kind, c.series)
		}
	}
}

func table(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../plandiff/signal/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}
