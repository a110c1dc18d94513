package signal

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseGrid(t *testing.T) {
	refused := func(text, sentence string) string { return fmt.Sprintf("grid %q %s", text, sentence) }
	const lookalike = "has a letter for a digit or a digit for a letter; did you mean "
	testParse(t, ParseGrid, []parseCase[Grid]{
		{name: "square", why: "four characters", text: "DN70", want: "DN70"},
		{name: "subsquare", why: "the third pair is written small (maidenhead.md 1)", text: "dn70VC", want: "DN70vc"},
		{name: "extended", why: "eight characters", text: "JN58td25", want: "JN58td25"},
		{name: "five pairs", why: "ten characters", text: "jn58TD25XA", want: "JN58td25xa"},
		{name: "last cell", why: "fields end at R, subsquares at x", text: "RR99xx", want: "RR99xx"},

		{name: "digit for I", why: "IO against 1O (maidenhead.md 3)", text: "1O91vl", err: refused("1O91vl", lookalike+"IO91vl"), fix: "IO91vl"},
		{name: "digit for O", why: "JO against J0 (maidenhead.md 3)", text: "J022", err: refused("J022", lookalike+"JO22"), fix: "JO22"},
		{name: "letter for 0", why: "positions 3 and 4 are digits", text: "DN7o", err: refused("DN7o", lookalike+"DN70"), fix: "DN70"},
		{name: "letter for 1", why: "positions 7 and 8 are digits", text: "DN70vcl4", err: refused("DN70vcl4", lookalike+"DN70vc14"), fix: "DN70vc14"},
		{name: "beyond R", why: "well formed to the eye and invalid (maidenhead.md 3)", text: "ZZ00zz", err: refused("ZZ00zz", "is not a locator; "+writeGrid)},
		{name: "beyond x", why: "subsquares end at x", text: "DN70yy", err: refused("DN70yy", "is not a locator; "+writeGrid)},
		{name: "field alone", why: "a field is as large as a country", text: "DN", err: refused("DN", "is too short to place a site; "+writeGrid)},
		{name: "odd", why: "pairs", text: "DN70v", err: refused("DN70v", "has an odd number of characters, and they come in pairs; "+writeGrid)},
		{name: "six pairs", why: "a site needs no cell of four meters", text: "DN70vc64aa00", err: refused("DN70vc64aa00", "has more than ten characters; "+writeGrid)},
		{name: "space", why: "the text as written is taken", text: " dn70", err: refused(" dn70", "has a space around it; write it without: DN70"), fix: "DN70"},
		{name: "empty", why: "an empty cell is no grid", text: "", err: refused("", "is empty; "+writeGrid)},
		{name: "another script", why: "bytes above ASCII are no letters", text: "\u0414N7", err: refused("\u0414N7", "is not a locator; "+writeGrid)},
	})
}

// published are the examples of maidenhead.md 2: the first four from QST, January 1989,
// "Conversion Between Geodetic and Grid Locator Systems", the rest as it marks them.
var published = []struct{ place, lat, lon, grid string }{
	{"Munich", "48.14666", "11.60833", "JN58td25"},
	{"Montevideo", "-34.91", "-56.21166", "GF15vc41"},
	{"Washington", "38.92", "-77.065", "FM18lw20"},
	{"Wellington", "-41.28333", "174.745", "RE78ir92"},
	{"Newington", "41.714775", "-72.727260", "FN31pr21"},
	{"Palo Alto", "37.413708", "-122.107323", "CM87wj79"}, // the published -122.1073236 has a seventh decimal
	{"Chattanooga", "35.0542", "-85.1142", "EM75kb63"},
	{"London", "51.4878", "-0.2146", "IO91vl47"},
	{"zero", "0", "0", "JJ00aa00"},
	{"south pole corner", "-90", "-180", "AA00aa00"},
	{"last cell", "89.999999", "179.999999", "RR99xx99"},
	{"the date line", "10", "180", "AK00aa00"},
	{"a made-up site", "40.1", "-104.2", "DN70vc64"},
}

func TestGridIsPublished(t *testing.T) {
	for _, c := range published {
		p := position(t, c.lat, c.lon)
		for _, chars := range []int{4, 6, 8} {
			if got := GridOf(p, chars); string(got) != c.grid[:chars] {
				t.Errorf("%s at %s is in %s, want %s", c.place, p, got, c.grid[:chars])
			}
		}
	}
}

func position(t *testing.T, lat, lon string) Position {
	t.Helper()
	latitude, err := ParseLatitude(lat)
	if err != nil {
		t.Fatal(err)
	}
	longitude, err := ParseLongitude(lon)
	if err != nil {
		t.Fatal(err)
	}
	return Position{Lat: latitude, Lon: longitude}
}

// TestCenterIsPublished: JN58td computed in maidenhead.md 2, GF15vc read there in an
// open test; half cells by its section 1, 4 characters 1 by 0.5 degree, 6 characters 2.5' by 1.25'.
func TestCenterIsPublished(t *testing.T) {
	for _, c := range []struct {
		grid             Grid
		lat, lon         string
		halfLat, halfLon MicroDegrees
	}{
		{"JN58td", "48.145833", "11.625", 20_834, 41_667},
		{"GF15vc", "-34.895833", "-56.208333", 20_834, 41_667},
		{"DN70", "40.5", "-105", 500_000, 1_000_000},
	} {
		center, halfLat, halfLon := c.grid.Center()
		if center != position(t, c.lat, c.lon) || halfLat != c.halfLat || halfLon != c.halfLon {
			t.Errorf("%s is around %s, %d by %d; want %s, %s", c.grid, center, halfLat, halfLon, c.lat, c.lon)
		}
	}
}

func TestGridOfTakesAnyPosition(t *testing.T) {
	for _, c := range []struct {
		p     Position
		chars int
		want  Grid
		why   string
	}{
		{Position{Lat: pole, Lon: 0}, 6, "JR09ax", "the north pole lies in the last row (maidenhead.md 1)"},
		{Position{Lat: 2 * pole, Lon: 0}, 4, "JR09", "beyond a pole is the pole"},
		{Position{Lat: -2 * pole, Lon: 0}, 4, "JA00", "beyond a pole is the pole"},
		{Position{Lon: 3 * dateLine}, 4, "AJ00", "once more around"},
		{Position{Lat: -1 << 63, Lon: -1 << 63}, 4, GridOf(Position{Lat: -pole, Lon: (-1 << 63) % (2 * dateLine)}, 4), "nothing overflows"},
		{Position{Lat: 1<<63 - 1, Lon: 1<<63 - 1}, 4, GridOf(Position{Lat: pole, Lon: (1<<63 - 1) % (2 * dateLine)}, 4), "nothing overflows"},
		{Position{}, 0, "JJ00", "fewer than four are four"},
		{Position{}, 7, "JJ00aa", "an odd number is the next lower"},
		{Position{}, 99, "JJ00aa00aa", "more than ten are ten"},
	} {
		if got := GridOf(c.p, c.chars); got != c.want {
			t.Errorf("%s with %d characters is %s, want %s: %s", c.p, c.chars, got, c.want, c.why)
		}
	}
}

// TestBoundsHoldTheCell: a position is in the bounds of its own cell, and what is in the
// bounds of a cell has its locator.
func TestBoundsHoldTheCell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Position{
			Lat: MicroDegrees(rapid.Int64Range(int64(-pole), int64(pole)-1).Draw(t, "lat")),
			Lon: MicroDegrees(rapid.Int64Range(int64(-dateLine), int64(dateLine)-1).Draw(t, "lon")),
		}
		grid := GridOf(p, rapid.SampledFrom([]int{4, 6, 8, 10}).Draw(t, "chars"))
		southWest, northEast := grid.Bounds()
		if p.Lat < southWest.Lat || p.Lat >= northEast.Lat || p.Lon < southWest.Lon || p.Lon >= northEast.Lon {
			t.Fatalf("%s is in %s, which lies from %s to %s", p, grid, southWest, northEast)
		}
		center, halfLat, halfLon := grid.Center()
		last := Position{Lat: northEast.Lat - 1, Lon: northEast.Lon - 1}
		for _, inside := range []Position{southWest, last, center} {
			if got := GridOf(inside, len(grid)); got != grid {
				t.Fatalf("%s is in %s, want %s", inside, got, grid)
			}
		}
		if away := p.Lat - center.Lat; away > halfLat || away < -halfLat {
			t.Fatalf("%s is %s north of the center of %s, more than %s", p, away, grid, halfLat)
		}
		if away := p.Lon - center.Lon; away > halfLon || away < -halfLon {
			t.Fatalf("%s is %s east of the center of %s, more than %s", p, away, grid, halfLon)
		}
		if again, err := ParseGrid(strings.ToUpper(string(grid))); again != grid {
			t.Fatalf("%s is read as %s, %v", grid, again, err)
		}
	})
}

// TestGridAgainstRationals works pair by pair with exact fractions, as the system is defined
// (maidenhead.md 1), where GridOf counts cells.
func TestGridAgainstRationals(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Int64Range(int64(-pole), int64(pole)-1).Draw(t, "lat")
		lon := rapid.Int64Range(int64(-dateLine), int64(dateLine)-1).Draw(t, "lon")
		east, north := big.NewRat(lon+180_000_000, 20_000_000), big.NewRat(lat+90_000_000, 10_000_000)
		var want strings.Builder
		for i, first := range "A0a0a" {
			want.WriteRune(first + rune(takeWhole(east)))
			want.WriteRune(first + rune(takeWhole(north)))
			next := big.NewRat([]int64{10, 24, 10, 24, 1}[i], 1)
			east.Mul(east, next)
			north.Mul(north, next)
		}
		if got := GridOf(Position{Lat: MicroDegrees(lat), Lon: MicroDegrees(lon)}, 10); string(got) != want.String() {
			t.Fatalf("%d, %d is in %s, want %s", lat, lon, got, want.String())
		}
	})
}

// takeWhole returns the whole part of x and leaves its fraction.
func takeWhole(x *big.Rat) int64 {
	whole := new(big.Int).Div(x.Num(), x.Denom())
	x.Sub(x, new(big.Rat).SetInt(whole))
	return whole.Int64()
}

func TestNoCellWithoutGrid(t *testing.T) {
	for _, g := range []Grid{"", "ZZ00", "DN7"} {
		southWest, northEast := g.Bounds()
		center, halfLat, halfLon := g.Center()
		if southWest != (Position{}) || northEast != (Position{}) || center != (Position{}) || halfLat != 0 || halfLon != 0 {
			t.Errorf("%q has a cell from %s to %s", g, southWest, northEast)
		}
	}
}
