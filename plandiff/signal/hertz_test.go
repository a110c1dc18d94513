package signal

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseMegahertz(t *testing.T) {
	const mhz = "write MHz, as in 146.520"
	refused := func(text, sentence string) string { return fmt.Sprintf("frequency %q %s", text, sentence) }
	testParse(t, ParseMegahertz, []parseCase[Hertz]{
		{name: "three decimals", why: "the usual form in VHF plans", text: "146.520", want: 146_520_000},
		{name: "two decimals", why: "a spreadsheet cuts the last zero (units.md 4, common practice)", text: "146.52", want: 146_520_000},
		{name: "no point", why: "a whole number of MHz is one", text: "147", want: 147_000_000},
		{name: "four decimals", why: "12.5 kHz steps need four (units.md 1, computed)", text: "146.8375", want: 146_837_500},
		{name: "five decimals", why: "6.25 kHz steps need five (units.md 1, computed)", text: "443.00625", want: 443_006_250},
		{name: "six decimals", why: "3.125 kHz steps need six (units.md 1, computed)", text: "443.003125", want: 443_003_125},
		{name: "zeros to the right", why: "443.4 and 443.4000 are one frequency (units.md 2)", text: "443.4000", want: 443_400_000},
		{name: "zeros beyond the hertz", why: "zeros change nothing", text: "446.006250000", want: 446_006_250},
		{name: "lowest", why: "the range begins here", text: "0.1", want: 100_000},
		{name: "highest", why: "the range ends here", text: "9999.999999", want: 9_999_999_999},

		{name: "comma", why: "Europe writes 439,1375 MHz (units.md 1)", text: "146,940", err: refused("146,940", "has a decimal comma; write a point: 146.940"), fix: "146.940"},
		{name: "thousands", why: "a point and a comma leave two readings", text: "1,296.5", err: refused("1,296.5", "has a comma; "+mhz)},
		{name: "finer than a hertz", why: "rounding would be a guess", text: "146.9400001", err: refused("146.9400001", "is finer than 1 Hz; write at most 6 decimals")},
		{name: "exponent", why: "a spreadsheet's form", text: "1e3", err: refused("1e3", "has an exponent; "+mhz)},
		{name: "minus", why: "no frequency is negative; a split may be meant", text: "-5", err: refused("-5", "has a sign; "+mhz)},
		{name: "plus", why: "a split may be meant, so no fix is offered", text: "+5", err: refused("+5", "has a sign; "+mhz)},
		{name: "zero", why: "zero is no carrier", text: "0", err: refused("0", "is zero; "+mhz)},
		{name: "empty", why: "an empty cell is no frequency", text: "", err: refused("", "is empty; "+mhz)},
		{name: "blank", why: "nor is a space", text: " ", err: refused(" ", "is empty; "+mhz)},
		{name: "space before", why: "the text as written is taken", text: " 146.52", err: refused(" 146.52", "has a space around it; write it without: 146.52"), fix: "146.52"},
		{name: "unit", why: "the unit is understood", text: "146.52 MHz", err: refused("146.52 MHz", "has a unit; write the number alone: 146.52"), fix: "146.52"},
		{name: "other unit", why: "the bare number would be wrong", text: "146520 kHz", err: refused("146520 kHz", "has something after the number; "+mhz)},
		{name: "kHz", why: "a bare number from 10 000 is kHz (units.md 4)", text: "146520", err: refused("146520", "looks like kHz; write MHz: did you mean 146.520"), fix: "146.520"},
		{name: "kHz with a decimal", why: "half a kHz is 500 Hz", text: "146837.5", err: refused("146837.5", "looks like kHz; write MHz: did you mean 146.8375"), fix: "146.8375"},
		{name: "kHz finer than a hertz", why: "the fix would have to round", text: "146520.0001", err: refused("146520.0001", "is 10000 MHz or more; "+mhz)},
		{name: "last kHz", why: "kHz end at 9 999 999 (units.md 4)", text: "9999999", err: refused("9999999", "looks like kHz; write MHz: did you mean 9999.999"), fix: "9999.999"},
		{name: "last kHz with decimals", why: "as above", text: "9999999.999", err: refused("9999999.999", "looks like kHz; write MHz: did you mean 9999.999999"), fix: "9999.999999"},
		{name: "first Hz", why: "above 9 999 999 it is Hz (units.md 4)", text: "10000000", err: refused("10000000", "looks like Hz; write MHz: did you mean 10.000"), fix: "10.000"},
		{name: "Hz", why: "as other files hold it", text: "146520000", err: refused("146520000", "looks like Hz; write MHz: did you mean 146.520"), fix: "146.520"},
		{name: "hexadecimal", why: "no plan is written so", text: "0x92", err: refused("0x92", "is not written in decimal digits; "+mhz)},
		{name: "underscore", why: "Go and YAML 1.1 read over it, a person may not", text: "1_46.52", err: refused("1_46.52", "has an underscore; write digits only: 146.52"), fix: "146.52"},
		{name: "Arabic digits", why: "they are digits to Unicode", text: "\u0661\u0664\u0666", err: refused("\u0661\u0664\u0666", "has digits that are not the plain 0 to 9; "+mhz)},
		{name: "full-width digits", why: "an input method writes them", text: "\uff11\uff14\uff16", err: refused("\uff11\uff14\uff16", "has digits that are not the plain 0 to 9; "+mhz)},
		{name: "two points", why: "an address has them", text: "146.52.0", err: refused("146.52.0", "has two points; "+mhz)},
		{name: "point at the end", why: "a decimal may have been lost", text: "146.", err: refused("146.", "ends in a point; write 146"), fix: "146"},
		{name: "point at the start", why: "a digit may have been lost", text: ".5", err: refused(".5", "has no digit before the point; write 0.5"), fix: "0.5"},
		{name: "zero in front", why: "YAML 1.1 reads some of these as octal (units.md 4)", text: "0146.52", err: refused("0146.52", "begins with a zero too many; write 146.52"), fix: "146.52"},
		{name: "too low", why: "no amateur band lies below 0.1357 MHz (47 CFR 97.301, from memory)", text: "0.05", err: refused("0.05", "is below 0.1 MHz; "+mhz)},
		{name: "a word", why: "a key may have been meant", text: "ridge", err: refused("ridge", "is not a number; "+mhz)},
		{name: "not a number", why: "strconv.ParseFloat would take it", text: "nan", err: refused("nan", "is not a number; "+mhz)},
		{name: "base 60", why: "YAML 1.1 reads 146:52 as a number (units.md 4)", text: "146:52", err: refused("146:52", "is not a number; "+mhz)},
		{name: "forty zeros", why: "no person writes them", text: "146." + strings.Repeat("0", 40), err: `frequency "146.` + strings.Repeat("0", 36) + `"... is too long for a number; ` + mhz},
		{name: "twenty digits", why: "more than an int64 holds", text: "99999999999999999999", err: refused("99999999999999999999", "is far too large; "+mhz)},
	})
}

func TestHertzText(t *testing.T) {
	for _, c := range []struct {
		f         Hertz
		mhz, kHz  string
		published string
	}{
		{146_520_000, "146.520", "146520", "three decimals at least (units.md 1, common practice)"},
		{446_006_250, "446.00625", "446006.25", "the first licence-free 446 MHz channel (bandwidth.md 2)"},
		{443_003_125, "443.003125", "443003.125", "units.md 1"},
		{16_000, "0.016", "16", "16K0F3E (bandwidth.md 1)"},
		{12_500, "0.0125", "12.5", "12K5 is 12.5 kHz (47 CFR 2.202(b))"},
		{7_600, "0.0076", "7.6", "7K60FXE (bandwidth.md 1)"},
		{11_250, "0.01125", "11.25", "narrow FM limit (bandwidth.md 1)"},
		{150, "0.00015", "0.15", "150H (bandwidth.md 1)"},
		{0, "0.000", "0", "the zero value"},
		{-600_000, "-0.600", "-600", "a difference of two frequencies"},
	} {
		if c.f.String() != c.mhz || c.f.KHz() != c.kHz {
			t.Errorf("%d Hz is %s MHz, %s kHz; want %s, %s: %s", int64(c.f), c.f, c.f.KHz(), c.mhz, c.kHz, c.published)
		}
	}
}

// TestMegahertzIsExact compares with rational arithmetic on every text the
// parser takes.
func TestMegahertzIsExact(t *testing.T) {
	million := big.NewRat(1_000_000, 1)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[1-9][0-9]{0,3}(\.[0-9]{1,6}0{0,3})?`).Draw(t, "text")
		got, err := ParseMegahertz(text)
		want, ok := new(big.Rat).SetString(text)
		if err != nil || !ok || want.Mul(want, million).Cmp(big.NewRat(int64(got), 1)) != 0 {
			t.Fatalf("%s is read as %d Hz, %v; want %s", text, int64(got), err, want)
		}
	})
}

func TestEveryHertzReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Hertz(rapid.Int64Range(megahertz.lowest, megahertz.highest).Draw(t, "hertz"))
		if again, err := ParseMegahertz(f.String()); again != f {
			t.Fatalf("%d Hz is written %s and read as %d, %v", int64(f), f, int64(again), err)
		}
	})
}

// TestSumsStayExact walks the case that 64-bit floats get wrong 256 times (units.md 3): add 0.6
// to every multiple of 2.5 kHz from 144 to 148 MHz.
func TestSumsStayExact(t *testing.T) {
	split, err := ParseSplit("+0.6")
	if err != nil {
		t.Fatal(err)
	}
	for i := range 1601 {
		output, err := ParseMegahertz(fmt.Sprintf("%d.%04d", 144+i/400, i%400*25))
		if err != nil {
			t.Fatal(err)
		}
		if got, want := output+Hertz(split), Hertz(144_600_000+2_500*i); got != want {
			t.Errorf("%s and 0.6 MHz make %s, want %s", output, got, want)
		}
	}
}

// TestIsFrequency: a sum can leave the range of ParseMegahertz on either side.
func TestIsFrequency(t *testing.T) {
	for f, want := range map[Hertz]bool{
		99_999: false, 100_000: true, 9_999_999_999: true, 10_000_000_000: false, 0: false, -600_000: false,
	} {
		if got := f.IsFrequency(); got != want {
			t.Errorf("%s MHz is a frequency: %v, want %v", f, got, want)
		}
	}
}
