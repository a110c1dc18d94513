package signal

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func TestParseSplit(t *testing.T) {
	const signed = "write MHz with a sign, as in +5 or -0.6"
	refused := func(text, sentence string) string { return fmt.Sprintf("split %q %s", text, sentence) }
	testParse(t, ParseSplit, []parseCase[Split]{
		{name: "up", why: "70 cm in the US (common practice)", text: "+5", want: 5_000_000},
		{name: "down", why: "2 m (common practice)", text: "-0.6", want: -600_000},
		{name: "zeros", why: "-0.600 is -0.6", text: "-0.600", want: -600_000},
		{name: "European", why: "-7.6 is one hertz short in floats (units.md 3)", text: "-7.6", want: -7_600_000},
		{name: "widest", why: "the range ends here", text: "+100", want: 100_000_000},

		{name: "no sign", why: "nothing tells which side is meant", text: "5", err: refused("5", "has no sign; write +5 or -5")},
		{name: "no sign, in kHz", why: "splits below 1 MHz are spoken in kHz (units.md 1)", text: "600", err: refused("600", "has no sign and looks like kHz; write +0.6 or -0.6")},
		{name: "no sign, no sense", why: "no unit makes it a split", text: "999999999999", err: refused("999999999999", "has no sign; "+signed)},
		{name: "no sign, comma", why: "one slip at a time is named", text: "0,6", err: refused("0,6", "has a decimal comma; "+signed)},
		{name: "zero", why: "that is no split", text: "0", err: refused("0", "is zero; that is simplex: write a channel with simplex and its frequency")},
		{name: "signed zero", why: "nor is that", text: "-0.0", err: refused("-0.0", "is zero; that is simplex: write a channel with simplex and its frequency")},
		{name: "kHz", why: "more than 100 MHz, sensible in kHz", text: "-600", err: refused("-600", "looks like kHz; write MHz: did you mean -0.6"), fix: "-0.6"},
		{name: "Hz", why: "more than 100 MHz, sensible in Hz", text: "+5000000", err: refused("+5000000", "looks like Hz; write MHz: did you mean +5"), fix: "+5"},
		{name: "too wide", why: "no unit makes it exact", text: "+100.000001", err: refused("+100.000001", "is more than 100 MHz; "+signed)},
		{name: "typographic minus", why: "a word processor writes it", text: "\u22120.6", err: refused("\u22120.6", "has a typographic minus; write a plain one: -0.6"), fix: "-0.6"},
		{name: "two signs", why: "either may be meant", text: "+-5", err: refused("+-5", "has two signs; "+signed)},
		{name: "comma", why: "Europe writes it", text: "-7,6", err: refused("-7,6", "has a decimal comma; write a point: -7.6"), fix: "-7.6"},
		{name: "unit", why: "it is understood", text: "+5 MHz", err: refused("+5 MHz", "has a unit; write the number alone: +5"), fix: "+5"},
		{name: "sign alone", why: "as some lists write it", text: "+", err: refused("+", "is not a number; "+signed)},
		{name: "finer than a hertz", why: "rounding would be a guess", text: "+0.6000001", err: refused("+0.6000001", "is finer than 1 Hz; write at most 6 decimals")},
	})
}

func TestEverySplitReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Split(rapid.Int64Range(1, splitMHz.highest).Draw(t, "hertz"))
		for _, s := range []Split{s, -s} {
			if again, err := ParseSplit(s.String()); again != s {
				t.Fatalf("%d Hz is written %s and read as %d, %v", int64(s), s, int64(again), err)
			}
		}
	})
}
