package signal

import (
	"testing"

	"pgregory.net/rapid"
)

func TestParseDecibels(t *testing.T) {
	testParse(t, ParseDecibels, []parseCase[Decibels]{
		{name: "whole", why: "a whole number", text: "6", want: 600},
		{name: "dipole", why: "a half-wave dipole over an isotropic antenna (common practice: 10 log 1.64)", text: "2.15", want: 215},
		{name: "loss as a gain", why: "a small antenna has less than a dipole", text: "-3", want: -300},
		{name: "nothing", why: "zero is a ratio", text: "0", want: 0},
		{name: "lowest", why: "the range begins here", text: "-50", want: -5_000},
		{name: "highest", why: "the range ends here", text: "100", want: 10_000},
		{name: "above", why: "out of range", text: "100.01", err: `ratio "100.01" is not between -50 and 100 dB; write decibels, as in 6 or 2.15`},
		{name: "unit", why: "it is understood", text: "6 dB", err: `ratio "6 dB" has a unit; write the number alone: 6`, fix: "6"},
		{name: "other unit", why: "the key says over what", text: "6 dBi", err: `ratio "6 dBi" has something after the number; write decibels, as in 6 or 2.15`},
		{name: "thousandths", why: "nothing is cut off", text: "2.151", err: `ratio "2.151" is finer than a hundredth of a decibel; write at most 2 decimals`},
	})
}

func TestDecibelsText(t *testing.T) {
	for d, want := range map[Decibels]string{600: "6 dB", 215: "2.15 dB", 0: "0 dB", -50: "-0.5 dB"} {
		if d.String() != want {
			t.Errorf("%d is written %s, want %s", int64(d), d, want)
		}
	}
	if got := Decibels(215).Float(); got != 2.15 {
		t.Errorf("215 hundredths are %v dB", got)
	}
}

func TestEveryRatioReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Decibels(rapid.Int64Range(decibels.lowest, decibels.highest).Draw(t, "hundredths"))
		written, err := d.MarshalText()
		if again, parseErr := ParseDecibels(string(written)); again != d {
			t.Fatalf("%s is written %s, %v and read as %s, %v", d, written, err, again, parseErr)
		}
	})
}
