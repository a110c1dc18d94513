package signal

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"gopkg.in/yaml.v3"
)

type everything struct {
	Output   Hertz
	Split    Split
	Send     Tone
	Receive  Tone
	CTCSS    CTCSS
	DCS      DCS
	Color    ColorCode
	Slot     Slot
	Group    GroupID
	Radio    RadioID
	Callsign Callsign
	Grid     Grid
	Position Position
	Power    Power
	Height   Meters
}

const (
	fullJSON = `{"Output":"444.325","Split":"+5","Send":"103.5","Receive":"D023N","CTCSS":"67.0","DCS":"D754I",` +
		`"Color":"4","Slot":"1","Group":"99931","Radio":"9990001","Callsign":"N0QRV","Grid":"DN70vc",` +
		`"Position":{"lat":"40.1","lon":"-104.2"},"Power":"0.5","Height":"12.5"}`
	emptyJSON = `{"Output":"","Split":"","Send":"","Receive":"","CTCSS":"","DCS":"D000N","Color":"0","Slot":"","Group":"",` +
		`"Radio":"","Callsign":"","Grid":"","Position":{"lat":"0","lon":"0"},"Power":"","Height":"0"}`
)

func full() everything {
	return everything{
		Output: 444_325_000, Split: 5_000_000, Send: CTCSS(1035).Tone(), Receive: DCS{Code: 0o23}.Tone(),
		CTCSS: 670, DCS: DCS{Code: 0o754, Inverted: true}, Color: 4, Slot: 1, Group: 99931, Radio: 9990001,
		Callsign: "N0QRV", Grid: "DN70vc", Position: Position{Lat: 40_100_000, Lon: -104_200_000}, Power: 500, Height: 125,
	}
}

// TestJSONIsTheTradesForm covers every type, with a value and with its zero value.
func TestJSONIsTheTradesForm(t *testing.T) {
	for _, c := range []struct {
		value everything
		text  string
	}{{full(), fullJSON}, {everything{}, emptyJSON}} {
		got, err := json.Marshal(c.value)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c.text, string(got)); diff != "" {
			t.Errorf("written (-want +got):\n%s", diff)
		}
		back := full()
		if err := json.Unmarshal([]byte(c.text), &back); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c.value, back, cmpopts.EquateComparable(Tone{})); diff != "" {
			t.Errorf("read (-want +got):\n%s", diff)
		}
	}
}

// TestYAMLIsTheSame matters because yaml.v3 writes a value by its MarshalText and quotes what
// would be read as something else.
func TestYAMLIsTheSame(t *testing.T) {
	text, err := yaml.Marshal(full())
	if err != nil {
		t.Fatal(err)
	}
	var back everything
	if err := yaml.Unmarshal(text, &back); err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	if back != full() {
		t.Errorf("read %+v from\n%s", back, text)
	}
}

func TestUnmarshalSaysWhy(t *testing.T) {
	for text, want := range map[string]string{
		`{"Output":"146,940"}`:         `frequency "146,940" has a decimal comma; write a point: 146.940`,
		`{"DCS":""}`:                   `DCS code "" is empty; write D, three digits 0 to 7 and the polarity N or I, as in D023N`,
		`{"Color":""}`:                 `color code "" is empty; write a number from 0 to 15`,
		`{"Position":{"lat":"north"}}`: `coordinate "north" is not a number; write decimal degrees from -180 to 180, as in -104.2, west negative`,
	} {
		value := full()
		err := json.Unmarshal([]byte(text), &value)
		var bad *Error
		if !errors.As(err, &bad) || bad.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
		if value != full() {
			t.Errorf("%s changed the value to %+v", text, value)
		}
	}
}

func TestFormatDecimal(t *testing.T) {
	for _, c := range []struct {
		value         int64
		places, least int
		want          string
	}{
		{0, 6, 3, "0.000"},
		{1, 6, 0, "0.000001"},
		{-1, 6, 0, "-0.000001"},
		{1_000_000, 6, 0, "1"},
		{1_000_000, 6, 3, "1.000"},
		{12, 0, 0, "12"},
		{math.MaxInt64, 6, 0, "9223372036854.775807"},
		{math.MinInt64, 6, 0, "-9223372036854.775808"},
	} {
		if got := formatDecimal(c.value, c.places, c.least); got != c.want {
			t.Errorf("%d with %d places is %s, want %s", c.value, c.places, got, c.want)
		}
	}
}
