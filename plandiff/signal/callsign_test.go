package signal

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseCallsign(t *testing.T) {
	refused := func(text, sentence string) string { return fmt.Sprintf("callsign %q %s", text, sentence) }
	const practice = "has an addition that is operating practice, not part of the call; "
	testParse(t, ParseCallsign, []parseCase[Callsign]{
		{name: "capitals", why: "as it is written", text: "N0QRV", want: "N0QRV"},
		{name: "small letters", why: "case does not matter", text: "n0qrv", want: "N0QRV"},
		{name: "three characters", why: "one letter, one digit, one letter (ITU RR 19.68)", text: "N0Q", want: "N0Q"},
		{name: "no digit in its place", why: "some countries assign such calls (ids.md 2, from memory)", text: "C6AQRV", want: "C6AQRV"},
		{name: "ten characters", why: "calls for special occasions are long (19.68A)", text: "N0QRVQRVQR", want: "N0QRVQRVQR"},

		{name: "letter O", why: "O and 0 look alike (ids.md 2)", text: "NOQRV", err: refused("NOQRV", "has the letter O where the digit belongs; write a zero: N0QRV"), fix: "N0QRV"},
		{name: "letter O after two", why: "two letters and a digit", text: "KDOQRV", err: refused("KDOQRV", "has the letter O where the digit belongs; write a zero: KD0QRV"), fix: "KD0QRV"},
		{name: "slashed zero", why: "it is written so by hand", text: "N\u00d8QRV", err: refused("N\u00d8QRV", "has a slashed zero; write a plain one: N0QRV"), fix: "N0QRV"},
		{name: "small slashed zero", why: "as above", text: "n\u00f8qrv", err: refused("n\u00f8qrv", "has a slashed zero; write a plain one: N0QRV"), fix: "N0QRV"},
		{name: "portable", why: "the part after the slash is not the call (ids.md 2)", text: "N0QRV/P", err: refused("N0QRV/P", practice+"write the call alone: N0QRV"), fix: "N0QRV"},
		{name: "abroad", why: "nor is the part before it", text: "DL/N0QRV/M", err: refused("DL/N0QRV/M", practice+"write the call alone: N0QRV"), fix: "N0QRV"},
		{name: "with a number", why: "data stations add one", text: "N0QRV-9", err: refused("N0QRV-9", practice+"write the call alone: N0QRV"), fix: "N0QRV"},
		{name: "space", why: "the text as written is taken", text: "N0QRV ", err: refused("N0QRV ", "has a space around it; write it without: N0QRV"), fix: "N0QRV"},
		{name: "two calls", why: "one of them cannot be chosen", text: "N0QRV N0QRW", err: refused("N0QRV N0QRW", "has characters that are not A to Z or 0 to 9; "+writeCallsign)},
		{name: "accent", why: "accented letters are excluded (19.45)", text: "N0QR\u00c9", err: refused("N0QR\u00c9", "has characters that are not A to Z or 0 to 9; "+writeCallsign)},
		{name: "dotless i", why: "strings.ToUpper makes a plain I of it", text: "n0qr\u0131", err: refused("n0qr\u0131", "has characters that are not A to Z or 0 to 9; "+writeCallsign)},
		{name: "empty", why: "an empty cell is no callsign", text: "", err: refused("", "is empty; "+writeCallsign)},
		{name: "two characters", why: "no series has so short ones", text: "N0", err: refused("N0", "has fewer than three characters; "+writeCallsign)},
		{name: "eleven characters", why: "a name got into the column", text: "N0QRVQRVQRV", err: refused("N0QRVQRVQRV", "has more than ten characters; "+writeCallsign)},
		{name: "a name", why: "columns got swapped", text: "RIDGE", err: refused("RIDGE", "has no digit; "+writeCallsign)},
		{name: "a radio ID", why: "columns got swapped", text: "9990001", err: refused("9990001", "has no letter; "+writeCallsign)},
		{name: "a page", why: "an error stays short", text: strings.Repeat("N0QRV", 100), err: refused(strings.Repeat("N0QRV", 8), "")[:len(`callsign "`)+40] + `"... is too long; ` + writeCallsign},
	})
}

// TestITUForm uses the calls of ids.md 2, read against ITU Radio Regulations 19.68 to
// 19.68A, and a few more.
func TestITUForm(t *testing.T) {
	const (
		noDigit = "has no digit after its first one or two characters (ITU RR 19.68)"
		special = "has more than four characters after its digit, as for special occasions (ITU RR 19.68A)"
		atEnd   = "ends in a digit, not in a letter (ITU RR 19.68)"
		atStart = "begins with two digits, as no series does (ITU RR 19.50)"
	)
	for call, problem := range map[Callsign]string{
		"N0QRV": "", "2E0QRV": "", "N0QRVA": "", "3DA0QRV": "", "3D2QRV": "", "PJ2QRV": "", "QQ1QRV": "",
		"1A0QRV": "", "N00QRV": "", "SSA1QRV": "", "C60QRV": "", "N0Q": "",
		"N0QRVAB": special, "C6AQRV": noDigit, "N0QR5": atEnd, "3DA0QRVA": noDigit, "12QRV": atStart, "C0QRV": noDigit, "": noDigit,
	} {
		err := call.ITUForm()
		var bad *Error
		switch {
		case problem == "" && err != nil:
			t.Errorf("%s: %v", call, err)
		case problem != "" && (!errors.As(err, &bad) || bad.Problem != problem):
			t.Errorf("%s: %v, want %s", call, err, problem)
		}
	}
}

// TestCallsignCountry uses the calls of ids.md 2 against the ITU table of series.
func TestCallsignCountry(t *testing.T) {
	const unitedKingdom = "United Kingdom of Great Britain and Northern Ireland"
	for call, want := range map[Callsign]string{
		"N0QRV": "United States of America", "KD0QRV": "United States of America", "AA0QRV": "United States of America",
		"2E0QRV": unitedKingdom, "G0QRV": unitedKingdom, "VE3QRV": "Canada", "DL1QRV": "Germany (Federal Republic of)",
		"3DA0QRV": "Eswatini (Kingdom of)", "3DN0QRV": "Fiji (Republic of)", "3D2QRV": "Eswatini (Kingdom of) or Fiji (Republic of)",
		"C6AQRV": "Bahamas (Commonwealth of the)", "N00QRV": "United States of America", "SSA1QRV": "Egypt (Arab Republic of)",
		"PJ2QRV": "Netherlands (Kingdom of the) - Bonaire, Sint Eustatius and Saba or Netherlands (Kingdom of the) - Cura\u00e7ao or Netherlands (Kingdom of the) - Sint Maarten (Dutch part)",
		"QQ1QRV": "", "1A0QRV": "", "12QRV": "", "N0": "", "": "",
	} {
		if got, ok := call.Country(); got != want || ok != (want != "") {
			t.Errorf("%s is of %q, %v; want %q", call, got, ok, want)
		}
	}
	if got := len(callsignSeries()); got != 310 {
		t.Errorf("%d series, want the 310 of callsign-prefixes.csv (ids.md 2)", got)
	}
}

// TestSeriesAreOrdered holds what Country rests on: three characters at each end, in order.
func TestSeriesAreOrdered(t *testing.T) {
	for _, s := range callsignSeries() {
		if len(s.from) != 3 || len(s.to) != 3 || s.from > s.to || s.country == "" {
			t.Errorf("series %q to %q of %q", s.from, s.to, s.country)
		}
	}
}

// TestFormIsACallsign builds calls by the words of 19.68, not by the expression.
func TestFormIsACallsign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		begin := rapid.SampledFrom([]string{"N", "K", "G", "KD", "DL", "2E", "C6", "9A"}).Draw(t, "begin")
		digit := rapid.SampledFrom(strings.Split(numerals, "")).Draw(t, "digit")
		middle := rapid.StringMatching(`[A-Z0-9]{0,3}`).Draw(t, "middle")
		last := rapid.SampledFrom(strings.Split(capitals, "")).Draw(t, "last")
		call, err := ParseCallsign(strings.ToLower(begin + digit + middle + last))
		if err != nil || string(call) != begin+digit+middle+last {
			t.Fatalf("%s, %v", call, err)
		}
		if err := call.ITUForm(); err != nil {
			t.Fatal(err)
		}
		if _, ok := call.Country(); !ok {
			t.Fatalf("%s is of no country", call)
		}
	})
}
