package signal

import (
	"encoding"
	"errors"
	"fmt"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// A parseCase is one text for a parser: a value, or the whole error a reader sees.
type parseCase[T any] struct {
	name string
	why  string
	text string
	want T
	err  string
	fix  string
}

func testParse[T comparable](t *testing.T, parse func(string) (T, error), cases []parseCase[T]) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := parse(c.text)
			if c.err == "" {
				if err != nil || got != c.want {
					t.Fatalf("%q: got %v, %v; want %v, because %s", c.text, got, err, c.want, c.why)
				}
				return
			}
			var bad *Error
			if !errors.As(err, &bad) {
				t.Fatalf("%q: got %v, %v; want the error %q, because %s", c.text, got, err, c.err, c.why)
			}
			if bad.Error() != c.err || bad.Fix != c.fix {
				t.Errorf("%q:\n got %s (fix %q)\nwant %s (fix %q)\nbecause %s", c.text, bad, bad.Fix, c.err, c.fix, c.why)
			}
			if got != *new(T) {
				t.Errorf("%q: a value %v came with the error", c.text, got)
			}
		})
	}
}

// A reading is a parser without its type, with what every parser owes its caller.
type reading struct {
	name   string
	sample []string // texts of values; seeds for the fuzzer and stock for mutations
	check  func(text string) error
}

// promise makes the check of a parser: what it reads is written so that it reads the same
// again, and what it refuses is refused in one line with a fix that works.
func promise[T interface {
	comparable
	encoding.TextMarshaler
	fmt.Stringer
}, P interface {
	*T
	encoding.TextUnmarshaler
}](parse func(string) (T, error)) func(string) error {
	return func(text string) error {
		value, err := parse(text)
		if err != nil {
			return checkRefusal(text, err, func(fix string) error { _, err := parse(fix); return err })
		}
		written, err := value.MarshalText()
		if err != nil {
			return fmt.Errorf("%q cannot be written: %w", text, err)
		}
		again, err := parse(string(written))
		if err != nil || again != value {
			return fmt.Errorf("%q is written as %q, which reads as %v, %v", text, written, again, err)
		}
		var back T
		if err := P(&back).UnmarshalText(written); err != nil || back != value {
			return fmt.Errorf("%q is written as %q, which is unmarshaled as %v, %v", text, written, back, err)
		}
		return nil
	}
}

func checkRefusal(text string, err error, parse func(string) error) error {
	bad, ok := err.(*Error)
	switch {
	case !ok:
		return fmt.Errorf("%q: %v is no *Error", text, err)
	case bad.Text != text || bad.Kind == "" || bad.Problem == "" || bad.Instead == "":
		return fmt.Errorf("%q: the error lacks a part: %#v", text, bad)
	case strings.Contains(bad.Problem+bad.Instead, ";"):
		return fmt.Errorf("%q: the error is more than what is wrong; what to write: %v", text, bad)
	case strings.ContainsFunc(bad.Error(), func(r rune) bool { return !unicode.IsPrint(r) }):
		return fmt.Errorf("%q: the error is not printable: %q", text, bad.Error())
	case len(bad.Error()) > 300:
		return fmt.Errorf("%q: the error has %d bytes", text, len(bad.Error()))
	case bad.Fix != "" && !strings.Contains(bad.Instead, bad.Fix):
		return fmt.Errorf("%q: %v does not name its fix %q", text, bad, bad.Fix)
	case bad.Fix != "" && parse(bad.Fix) != nil:
		return fmt.Errorf("%q: the fix %q is refused: %v", text, bad.Fix, parse(bad.Fix))
	}
	return nil
}

func readings() []reading {
	return []reading{
		{"Megahertz", []string{"146.520", "446.00625", "0.1", "9999.999999", "146,940", "146520", "146520000"}, promise(ParseMegahertz)},
		{"Split", []string{"+5", "-0.6", "+100", "-600", "5"}, promise(ParseSplit)},
		{"CTCSS", []string{"103.5", "67", "300.0", "1035", "100.00"}, promise(ParseCTCSS)},
		{"DCS", []string{"D023N", "d754i", "023", "D23N", "D089I"}, promise(ParseDCS)},
		{"Tone", []string{"103.5", "D023N", "131", "123", "none"}, promise(ParseTone)},
		{"ColorCode", []string{"0", "15", "16", "07"}, promise(ParseColorCode)},
		{"Slot", []string{"1", "2", "3", "TS1"}, promise(ParseSlot)},
		{"GroupID", []string{"99931", "16777215", "16777216"}, promise(ParseGroupID)},
		{"RadioID", []string{"9990001", "999000101", "0"}, promise(ParseRadioID)},
		{"Callsign", []string{"N0QRV", "c6aqrv", "NOQRV", "DL/N0QRV/P", "N\u00d8QRV"}, promise(ParseCallsign)},
		{"Grid", []string{"DN70", "jn58TD25", "1O91vl", "JJ00aa00aa"}, promise(ParseGrid)},
		{"Latitude", []string{"40.1", "-90", "40.1N", "34.91 S"}, promise(ParseLatitude)},
		{"Longitude", []string{"-104.2", "180", "104.2\u00b0 W", "11.6 E"}, promise(ParseLongitude)},
		{"Watts", []string{"5", "0.5", "50 W", "1000000"}, promise(ParseWatts)},
		{"Meters", []string{"30", "-12.5", "30 m", "10000"}, promise(ParseMeters)},
		{"Decibels", []string{"6", "2.15", "-3", "100", "2.155", "6 dB"}, promise(ParseDecibels)},
	}
}

// TestParsersKeepTheirPromises tries the samples with small slips, which random text would
// seldom hit.
func TestParsersKeepTheirPromises(t *testing.T) {
	slips := []string{"", "0", "1", "7", "9", ".", ",", "+", "-", "\u2212", "_", " ", "\t", "e", "E3", "x", "O", "o", "I",
		"N", "S", "W", "D", "R", "/", "\u00d8", "\u0663", "\u00b0", "\x00", "\xff", " MHz", "m", "00", "\u202e", "\u0131"}
	for _, r := range readings() {
		t.Run(r.name, rapid.MakeCheck(func(t *rapid.T) {
			text := rapid.SampledFrom(r.sample).Draw(t, "sample")
			for range rapid.IntRange(0, 4).Draw(t, "slips") {
				from := rapid.IntRange(0, len(text)).Draw(t, "from")
				to := rapid.IntRange(from, min(from+2, len(text))).Draw(t, "to")
				text = text[:from] + rapid.SampledFrom(slips).Draw(t, "slip") + text[to:]
			}
			if err := r.check(text); err != nil {
				t.Fatal(err)
			}
		}))
	}
}

func fuzz(f *testing.F, name string) {
	for _, r := range readings() {
		if r.name != name {
			continue
		}
		for _, text := range append(r.sample, "", " ", "-", "+", "1e3", "0x1F", "1_0", "\xff\x00", strings.Repeat("9", 400)) {
			f.Add(text)
		}
		f.Fuzz(func(t *testing.T, text string) {
			if err := r.check(text); err != nil {
				t.Error(err)
			}
		})
		return
	}
	f.Fatalf("no parser is called %s", name)
}

func FuzzParseMegahertz(f *testing.F) { fuzz(f, "Megahertz") }
func FuzzParseSplit(f *testing.F)     { fuzz(f, "Split") }
func FuzzParseCTCSS(f *testing.F)     { fuzz(f, "CTCSS") }
func FuzzParseDCS(f *testing.F)       { fuzz(f, "DCS") }
func FuzzParseTone(f *testing.F)      { fuzz(f, "Tone") }
func FuzzParseColorCode(f *testing.F) { fuzz(f, "ColorCode") }
func FuzzParseSlot(f *testing.F)      { fuzz(f, "Slot") }
func FuzzParseGroupID(f *testing.F)   { fuzz(f, "GroupID") }
func FuzzParseRadioID(f *testing.F)   { fuzz(f, "RadioID") }
func FuzzParseCallsign(f *testing.F)  { fuzz(f, "Callsign") }
func FuzzParseGrid(f *testing.F)      { fuzz(f, "Grid") }
func FuzzParseLatitude(f *testing.F)  { fuzz(f, "Latitude") }
func FuzzParseLongitude(f *testing.F) { fuzz(f, "Longitude") }
func FuzzParseWatts(f *testing.F)     { fuzz(f, "Watts") }
func FuzzParseMeters(f *testing.F)    { fuzz(f, "Meters") }
func FuzzParseDecibels(f *testing.F)  { fuzz(f, "Decibels") }
