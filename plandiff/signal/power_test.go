package signal

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestParseWatts(t *testing.T) {
	testParse(t, ParseWatts, []parseCase[Power]{
		{name: "watts", why: "a whole number", text: "5", want: 5_000},
		{name: "half a watt", why: "the limit at 446 MHz (dmr.md 9)", text: "0.5", want: 500},
		{name: "lowest", why: "the range begins here", text: "0.001", want: 1},
		{name: "highest", why: "the range ends here", text: "1000000", want: 1_000_000_000},
		{name: "unit", why: "it is understood", text: "50 W", err: `power "50 W" has a unit; write the number alone: 50`, fix: "50"},
		{name: "other unit", why: "the bare number would be wrong", text: "500 mW", err: `power "500 mW" has something after the number; write watts, as in 5 or 0.5`},
		{name: "zero", why: "no carrier has none", text: "0", err: `power "0" is zero; leave the power out where it is not known`},
		{name: "too much", why: "out of range", text: "1000001", err: `power "1000001" is above a million watts; write watts, as in 5 or 0.5`},
		{name: "finer than a milliwatt", why: "nothing is cut off", text: "0.0005", err: `power "0.0005" is finer than 1 mW; write at most 3 decimals`},
		{name: "a level", why: "it has a place of its own", text: "high", err: `power "high" is not a number; write watts, as in 5 or 0.5`},
	})
}

func TestPowerText(t *testing.T) {
	for p, want := range map[Power]string{5_000: "5 W", 500: "500 mW", 999: "999 mW", 1_000: "1 W", 1_500: "1.5 W", 1: "1 mW", 50_000: "50 W"} {
		if p.String() != want {
			t.Errorf("%d mW is written %s, want %s", int64(p), p, want)
		}
	}
	for p, want := range map[Power]string{5_000: "5", 500: "0.5", 1: "0.001"} {
		if got, err := p.MarshalText(); string(got) != want || err != nil {
			t.Errorf("%s is marshaled as %s, %v; want %s", p, got, err, want)
		}
	}
}

// TestDBm uses the definition, decibels above 1 mW (ITU-R V.574): 1 W is 30 dBm, each ten
// times 10 dB, twice 3.0103 dB.
func TestDBm(t *testing.T) {
	for p, want := range map[Power]float64{1: 0, 1_000: 30, 2_000: 33.0103, 50_000: 46.9897, 100_000: 50} {
		if got := p.DBm(); math.Abs(got-want) > 0.0001 {
			t.Errorf("%s is %v dBm, want %v", p, got, want)
		}
	}
	for _, p := range []Power{0, -1} {
		if !math.IsInf(p.DBm(), -1) {
			t.Errorf("%d mW is %v dBm, want minus infinity", int64(p), p.DBm())
		}
	}
	if got := Power(1_500).Watts(); got != 1.5 {
		t.Errorf("1500 mW is %v W", got)
	}
}

func TestEveryPowerReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Power(rapid.Int64Range(watts.lowest, watts.highest).Draw(t, "milliwatts"))
		written, err := p.MarshalText()
		if again, parseErr := ParseWatts(string(written)); again != p {
			t.Fatalf("%s is written %s, %v and read as %s, %v", p, written, err, again, parseErr)
		}
	})
}
