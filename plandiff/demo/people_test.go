package demo_test

import (
	"io/fs"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
)

// A call sign of ITU Radio Regulations 19.68 from the United States series (AAA-ALZ, KAA-KZZ, NAA-NZZ,
// WAA-WZZ of RR Appendix 42), with a suffix of the Q code, QRA to QUZ, which 19.48 keeps
// out of call signs (that the block ends at QUZ: from memory). So it is nobody's.
const invented = `\b(?:A[A-L]|[KNW][A-Z]?)[0-9]Q[R-U][A-Z]\b`

func TestEveryCallsignIsInvented(t *testing.T) {
	form := regexp.MustCompile(`^` + invented + `$`)
	// Whatever looks like a call sign, wherever it stands, in text and messages too.
	likely := regexp.MustCompile(`\b[AKNW][A-Z]?[0-9][A-Z]{1,3}\b`)
	for _, commit := range demo.History() {
		c := readClub(t, commit.Plan)
		for key, r := range c.Repeaters {
			if !form.MatchString(r.Callsign) {
				t.Errorf("%s: repeater %s has the callsign %q", commit.Name, key, r.Callsign)
			}
		}
		for _, row := range c.operators {
			if !form.MatchString(row[1]) {
				t.Errorf("%s: operator %q has the callsign %q", commit.Name, row[2], row[1])
			}
		}
		for _, call := range likely.FindAllString(everything(t, commit), -1) {
			if !form.MatchString(call) {
				t.Errorf("%s: %s may be somebody's", commit.Name, call)
			}
		}
	}
}

func everything(t *testing.T, c demo.Commit) string {
	t.Helper()
	text := c.Message
	names, err := fs.Glob(c.Plan, "*")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		b, err := fs.ReadFile(c.Plan, name)
		if err != nil {
			t.Fatal(err)
		}
		text += string(b)
	}
	return text
}

func TestEveryRadioIDOfMainIsOnePersons(t *testing.T) {
	for _, commit := range demo.History() {
		if commit.Branch != demo.Main {
			continue
		}
		owner, person := map[string]string{}, map[string]string{}
		for _, row := range readClub(t, commit.Plan).operators {
			id, call, name := row[0], row[1], row[2]
			// 999 is for internal use in ITU-T E.212; a person has seven digits by convention.
			if n, err := strconv.Atoi(id); err != nil || n > lastGroup || len(id) != 7 || !strings.HasPrefix(id, "999") {
				t.Errorf("%s: %s is no radio ID of ours", commit.Name, id)
			}
			if other, ok := owner[id]; ok {
				t.Errorf("%s: %s and %s share %s", commit.Name, other, call, id)
			}
			if other, ok := person[call]; ok && other != name {
				t.Errorf("%s: %s and %s share %s", commit.Name, other, name, call)
			}
			owner[id], person[call] = call, name
		}
	}
}

func TestOnePersonHasTwoRadioIDs(t *testing.T) {
	ids := map[string]int{}
	for _, row := range readClub(t, demo.Plan()).operators {
		ids[row[1]]++
	}
	for _, n := range ids {
		if n == 2 {
			return
		}
	}
	t.Error("nobody has two radio IDs, which is allowed and often taken for a mistake")
}

// locator computes six characters from micro-degrees, by the integer arithmetic of the
// Maidenhead system (IARU Region 1 VHF working group, 1980).
func locator(lat, lon int64) string {
	x, y := lon+180_000_000, lat+90_000_000
	return string([]byte{
		byte('A' + x/20_000_000), byte('A' + y/10_000_000),
		byte('0' + x%20_000_000/2_000_000), byte('0' + y%10_000_000/1_000_000),
		byte('a' + x%2_000_000*12/1_000_000), byte('a' + y%1_000_000*24/1_000_000),
	})
}

// The four places are worked examples in QST, January 1989, 'Conversion Between Geodetic and Grid
// Locator Systems'.
func TestLocatorAgreesWithPublishedExamples(t *testing.T) {
	for _, place := range []struct {
		name     string
		lat, lon int64
		want     string
	}{
		{"Munich", 48_146_660, 11_608_330, "JN58td"},
		{"Montevideo", -34_910_000, -56_211_660, "GF15vc"},
		{"Washington", 38_920_000, -77_065_000, "FM18lw"},
		{"Wellington", -41_283_330, 174_745_000, "RE78ir"},
	} {
		if got := locator(place.lat, place.lon); got != place.want {
			t.Errorf("%s: %s, want %s", place.name, got, place.want)
		}
	}
}

func TestSitesAgreeWithTheirLocators(t *testing.T) {
	for _, commit := range demo.History() {
		for key, r := range readClub(t, commit.Plan).Repeaters {
			lat, lon := micro(t, r.Site.Lat), micro(t, r.Site.Lon)
			if got := locator(lat, lon); got != r.Site.Grid {
				t.Errorf("%s: %s stands in %s, and says %s", commit.Name, key, got, r.Site.Grid)
			}
			if r.Site.Height < 10 || r.Site.Height > 100 || r.Site.ERP < 5 || r.Site.ERP > 200 {
				t.Errorf("%s: %s: %d m and %d W ERP are not those of a club's repeater", commit.Name, key, r.Site.Height, r.Site.ERP)
			}
		}
	}
}

// micro reads degrees as written, in micro-degrees.
func micro(t *testing.T, degrees string) int64 {
	t.Helper()
	r, ok := new(big.Rat).SetString(degrees)
	if !ok {
		t.Fatalf("%q is no angle", degrees)
	}
	r.Mul(r, big.NewRat(1_000_000, 1))
	return r.Num().Int64() / r.Denom().Int64()
}
