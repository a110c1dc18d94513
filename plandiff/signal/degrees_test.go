package signal

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func TestParseLatitude(t *testing.T) {
	const write = "write decimal degrees from -90 to 90, as in 40.1, south negative"
	refused := func(text, sentence string) string { return fmt.Sprintf("latitude %q %s", text, sentence) }
	testParse(t, ParseLatitude, []parseCase[MicroDegrees]{
		{name: "north", why: "positive", text: "40.1", want: 40_100_000},
		{name: "south", why: "negative", text: "-34.91", want: -34_910_000},
		{name: "six decimals", why: "as exact as the value", text: "41.714775", want: 41_714_775},
		{name: "zeros", why: "they change nothing", text: "40.10000000", want: 40_100_000},
		{name: "pole", why: "the range ends here", text: "-90", want: -pole},
		{name: "minus zero", why: "the equator has one side", text: "-0", want: 0},

		{name: "seven decimals", why: "nothing is cut off", text: "40.1234567", err: refused("40.1234567", "is finer than a millionth of a degree (11 cm); write at most 6 decimals")},
		{name: "beyond the pole", why: "a longitude got in", text: "-104.2", err: refused("-104.2", "is out of range; "+write+" (were latitude and longitude swapped?)")},
		{name: "N", why: "as a map writes it", text: "40.1N", err: refused("40.1N", "has a letter for its side; write the sign instead: 40.1"), fix: "40.1"},
		{name: "S", why: "south is negative", text: "34.91\u00b0 s", err: refused("34.91\u00b0 s", "has a letter for its side; write the sign instead: -34.91"), fix: "-34.91"},
		{name: "W", why: "not the side of a latitude", text: "40.1W", err: refused("40.1W", "has something after the number; "+write)},
		{name: "sign and S", why: "the two may cancel", text: "-34.91S", err: refused("-34.91S", "has something after the number; "+write)},
		{name: "degree sign", why: "the unit is understood", text: "40.1\u00b0", err: refused("40.1\u00b0", "has a unit; write the number alone: 40.1"), fix: "40.1"},
		{name: "minutes", why: "only decimals are read", text: "40\u00b006'", err: refused("40\u00b006'", "has something after the number; "+write)},
		{name: "plus", why: "north needs no sign", text: "+40.1", err: refused("+40.1", "has a plus sign; write it without: 40.1"), fix: "40.1"},
		{name: "comma", why: "Europe writes it", text: "40,1", err: refused("40,1", "has a decimal comma; write a point: 40.1"), fix: "40.1"},
	})
}

func TestParseLongitude(t *testing.T) {
	const write = "write decimal degrees from -180 to 180, as in -104.2, west negative"
	testParse(t, ParseLongitude, []parseCase[MicroDegrees]{
		{name: "west", why: "negative", text: "-104.2", want: -104_200_000},
		{name: "the date line", why: "the range ends here", text: "180", want: dateLine},
		{name: "W", why: "west is negative", text: "104.2 W", err: `longitude "104.2 W" has a letter for its side; write the sign instead: -104.2`, fix: "-104.2"},
		{name: "beyond", why: "there is no such meridian", text: "181", err: `longitude "181" is out of range; ` + write + " (were latitude and longitude swapped?)"},
	})
}

func TestEveryAngleReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := MicroDegrees(rapid.Int64Range(int64(-pole), int64(pole)).Draw(t, "lat"))
		lon := MicroDegrees(rapid.Int64Range(int64(-dateLine), int64(dateLine)).Draw(t, "lon"))
		if again, err := ParseLatitude(lat.String()); again != lat {
			t.Fatalf("latitude %d is written %s and read as %d, %v", lat, lat, again, err)
		}
		if again, err := ParseLongitude(lon.String()); again != lon {
			t.Fatalf("longitude %d is written %s and read as %d, %v", lon, lon, again, err)
		}
	})
}

func TestDegrees(t *testing.T) {
	if got := MicroDegrees(-104_200_000).Degrees(); got != -104.2 {
		t.Errorf("-104.2 degrees are %v", got)
	}
	if got := (Position{Lat: 40_100_000, Lon: -104_200_000}).String(); got != "40.1, -104.2" {
		t.Errorf("the position is written %s", got)
	}
}
