package license

import (
	"slices"
	"testing"

	"passband.example/plandiff/signal"
)

// What band plans keep against FM and DMR. Sources: the plans as bandplans.csv was gathered
// from them; the US plan (open data set, 2024), the German plan of 2009, RSGB 2025, RAC 1995,
// IARU Region 1.
func TestKeptAgainst(t *testing.T) {
	tests := []struct {
		region, mhz string
		width       signal.Hertz
		want        Kept
		why         string
	}{
		{"US", "144.2", 16_000, CallingSSB, "the SSB calling frequency says more than the weak-signal segment"},
		{"US", "144.15", 16_000, WeakSignals, "SSB, weak signal: 144.1-144.275"},
		{"US", "144.285", 7_600, Beacons, "144.275-144.3"},
		{"US", "144.35", 16_000, Satellites, "144.3-144.5"},
		{"US", "144.39", 16_000, NotKept, "packet has its channel inside the satellite segment"},
		{"US", "144.507999", 16_000, Satellites, "it reaches 1 Hz below 144.5"},
		{"US", "144.508", 16_000, NotKept, "it ends on 144.5"},
		{"US", "144.95", 16_000, NotKept, "weak signal and packet: not kept against FM"},
		{"US", "146.52", 16_000, NotKept, "a calling channel in FM is there for FM"},
		{"US", "432.5", 16_000, NotKept, "mixed mode"},
		{"US", "222.2", 16_000, NotKept, "local option"},
		{"US", "903.2", 16_000, WeakSignals, "903.0-903.4"},
		{"US", "52.1", 16_000, NotKept, "inputs"},
		{"CA", "432.35", 11_000, Beacons, "narrower than the CW, SSB segment around it"},
		{"CA", "436.0", 11_000, Satellites, "435-438"},
		{"DE", "145.9", 11_000, Satellites, "145.806-146"},
		{"DE", "145.2", 11_000, Satellites, "space communication of the regional plan"},
		{"DE", "145.1875", 16_000, NotKept, "the neighbor of 145.200, whose channel it is not in"},
		{"DE", "145.7875", 16_000, NotKept, "the neighbor of 145.800"},
		{"DE", "144.45", 7_600, Beacons, "IARU Region 1, which the national plan leaves alone"},
		{"DE", "144.05", 16_000, Morse, "IARU Region 1: CW from 144.025"},
		{"DE", "50.3", 11_000, WeakSignals, "IARU Region 1; the national plan of 2009 is superseded"},
		{"GB", "432.2", 11_000, WeakSignals, "narrowband modes"},
		{"GB", "432.45", 11_000, Beacons, "beacons only"},
		{"GB", "432.8", 11_000, NotKept, "all modes"},
		{"GB", "433.0", 11_000, NotKept, "outputs"},
		{"FR", "436.0", 11_000, Satellites, "Region 1; from memory"},
		{"JP", "433.0", 11_000, NotKept, "a main channel for FM"},
		{"AU", "146.5", 16_000, NotKept, "a calling channel for FM"},
		{"NZ", "145.9", 16_000, NotKept, "no plan was found"},
	}
	for _, tt := range tests {
		got := NotKept
		if found := region(t, tt.region).KeptAgainst(mhz(t, tt.mhz), tt.width); len(found) > 0 {
			got = found[0].Kept
		}
		if got != tt.want {
			t.Errorf("%s %s: %q, want %q: %s", tt.region, tt.mhz, got, tt.want, tt.why)
		}
	}
}

func TestRaster(t *testing.T) {
	tests := []struct {
		region, mhz string
		want        []signal.Hertz
		why         string
	}{
		{"US", "146.94", []signal.Hertz{15_000, 20_000}, "15 kHz, and 20 in some areas"},
		{"US", "146.52", []signal.Hertz{15_000, 20_000}, "the calling channel is in the simplex segment"},
		{"US", "444.325", []signal.Hertz{25_000}, "the narrower of two segments"},
		{"US", "441.0", nil, "no step is said"},
		{"DE", "438.65", []signal.Hertz{12_500}, "national plan 2009"},
		{"GB", "433.05", []signal.Hertz{12_500}, "RSGB 2025, before Region 1"},
		{"ITU-R1", "433.05", []signal.Hertz{25_000}, "Region 1"},
		{"US", "300.0", nil, "no plan"},
	}
	for _, tt := range tests {
		var got []signal.Hertz
		if s := region(t, tt.region).Raster(mhz(t, tt.mhz)); s != nil {
			got = s.Rasters
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s %s: %v, want %v: %s", tt.region, tt.mhz, got, tt.want, tt.why)
		}
	}
}

// The closest centers are allowed, and one hertz farther out is not.
func TestClosest(t *testing.T) {
	tests := []struct {
		region, mhz string
		e           Emission
		station     Station
		low, high   string
		why         string
	}{
		{"US", "146.52", FMWide(), Member, "144.108", "147.992", "phone from 144.1: 97.305(a), (c); 148: 97.301(a)"},
		{"US", "146.52", FMWide(), RepeaterOutput, "146.008", "147.992", "97.205(b) bars 145.5-146"},
		{"US", "433.5", DMRVoice(), Member, "420.0038", "449.9962", "97.301(a)"},
		{"DE", "433.5", FMNarrow(), Member, "430.0055", "439.9945", "AFuV Anlage 1"},
		{"JP", "145.5", DMRVoice(), Member, "145.0118", "145.9962", "above the main channel 145.000"},
		{"DE", "446.00625", FMNarrow(), Member, "", "", "no band"},
		{"US", "145.6", FMWide(), RepeaterInput, "", "", "in a barred range"},
	}
	for _, tt := range tests {
		tables := region(t, tt.region)
		q := Query{Center: mhz(t, tt.mhz), Emission: tt.e, Station: tt.station, Site: at(39.74, -104.99)}
		low, high, ok := tables.Closest(q)
		if ok != (tt.low != "") {
			t.Errorf("%s %s %s: %v: %s", tt.region, tt.mhz, tt.e.Designator, ok, tt.why)
		}
		if !ok {
			continue
		}
		if low != mhz(t, tt.low) || high != mhz(t, tt.high) {
			t.Errorf("%s %s %s: %s to %s, want %s to %s: %s", tt.region, tt.mhz, tt.e.Designator, low, high, tt.low, tt.high, tt.why)
		}
		for f, want := range map[signal.Hertz]Outcome{low - 1: Denied, low: Allowed, high: Allowed, high + 1: Denied} {
			q.Center = f
			if v := tables.Transmit(q); v.Outcome != want && !(want == Denied && v.Outcome == Doubtful) {
				t.Errorf("%s %s: %v, want %v", tt.region, f, v.Outcome, want)
			}
		}
	}
}
