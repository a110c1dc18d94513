package signal

import (
	"slices"
	"strings"
	"sync"
)

// singleLetters are the series whose first letter alone tells the nationality (ITU RR
// 19.50.1), where an amateur call has one letter before its digit (19.68).
const singleLetters = "BFGIKMNRW"

// Country returns the country that the callsign's series is allocated to, as the ITU
// writes it, and whether there is one. Where the beginning fits more than one, they
// are joined by "or": 3D2 may be of Eswatini or of Fiji. Source: the ITU table of
// international call sign series (RR Appendix 42).
func (c Callsign) Country() (country string, ok bool) {
	key := c.nationality()
	if key == "" {
		return "", false
	}
	known, ok := countries.Load(key)
	if !ok {
		known, _ = countries.LoadOrStore(strings.Clone(key), countryOf(key))
	}
	return known.(string), known != ""
}

// countries remembers what was found for the beginning of a callsign, since large
// tables ask for each of their rows: three characters at most, so it stays small.
var countries sync.Map

func countryOf(key string) string {
	var found []string
	for _, s := range callsignSeries() {
		if s.from[:len(key)] <= key && key <= s.to[:len(key)] && !slices.Contains(found, s.country) {
			found = append(found, s.country)
		}
	}
	return strings.Join(found, " or ")
}

// nationality returns the one to three characters that tell the series.
func (c Callsign) nationality() string {
	call := string(c)
	switch {
	case len(call) < shortestCallsign:
		return ""
	case strings.Contains(singleLetters, call[:1]) && strings.Contains(numerals, call[1:2]):
		return call[:1]
	case halfSeriesForm().MatchString(call):
		return call[:3]
	default:
		return call[:2]
	}
}
