package signal

import (
	"testing"

	"pgregory.net/rapid"
)

func TestParseMeters(t *testing.T) {
	testParse(t, ParseMeters, []parseCase[Meters]{
		{name: "meters", why: "a whole number", text: "30", want: 300},
		{name: "tenths", why: "one decimal", text: "12.5", want: 125},
		{name: "ground", why: "zero is a height", text: "0", want: 0},
		{name: "below the sea", why: "some ground is", text: "-86", want: -860},
		{name: "lowest", why: "the range begins here", text: "-500", want: -5_000},
		{name: "highest", why: "the range ends here", text: "10000", want: 100_000},
		{name: "above", why: "a height in feet may be meant", text: "10000.1", err: `height "10000.1" is not between -500 and 10000 m; write meters, as in 30 or 12.5`},
		{name: "below", why: "out of range", text: "-500.1", err: `height "-500.1" is not between -500 and 10000 m; write meters, as in 30 or 12.5`},
		{name: "unit", why: "it is understood", text: "30m", err: `height "30m" has a unit; write the number alone: 30`, fix: "30"},
		{name: "feet", why: "the bare number would be wrong", text: "100 ft", err: `height "100 ft" has something after the number; write meters, as in 30 or 12.5`},
		{name: "centimeters", why: "nothing is cut off", text: "12.25", err: `height "12.25" is finer than a tenth of a meter; write at most one decimal`},
	})
}

func TestMetersText(t *testing.T) {
	for m, want := range map[Meters]string{300: "30 m", 305: "30.5 m", 0: "0 m", -5: "-0.5 m"} {
		if m.String() != want {
			t.Errorf("%d dm is written %s, want %s", int64(m), m, want)
		}
	}
	if got := Meters(305).Float(); got != 30.5 {
		t.Errorf("305 dm is %v m", got)
	}
}

func TestEveryHeightReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Meters(rapid.Int64Range(meters.lowest, meters.highest).Draw(t, "decimeters"))
		written, err := m.MarshalText()
		if again, parseErr := ParseMeters(string(written)); again != m {
			t.Fatalf("%s is written %s, %v and read as %s, %v", m, written, err, again, parseErr)
		}
	})
}
