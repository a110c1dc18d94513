package plan

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// spelledFields gives one field for each spelling, with a record to read it into.
func spelledFields(t testing.TB) map[string]struct {
	f *Field
	r Record
} {
	all := make(map[string]struct {
		f *Field
		r Record
	})
	for _, s := range sections() {
		for i := range s.Fields {
			f := &s.Fields[i]
			spelling, ok := f.Spelling()
			if !ok {
				if f.Form != Flag && s.file == "" {
					t.Errorf("%s of a %s has no spelling: no editor can check it", f.Name, s.Kind)
				}
				continue
			}
			if s.file == "" {
				all[spelling.Name] = struct {
					f *Field
					r Record
				}{f, s.create()}
			}
		}
	}
	return all
}

// nearMisses are what people and parsers take for a value, and what is one only just.
var nearMisses = []string{
	"", " ", "0", "00", "-0", "+0", "0.0", "1", "01", "-1", "+1", "1.", ".5", "0.1", "0.09", "0.000001", "0.0000001", "0.0000010", "0.001", "0.0009", "0.00100",
	"10", "15", "16", "2", "3", "32.9", "33", "33.0", "67", "67.0", "100", "100.0", "100.00", "103.5", "103.55", "123", "125", "125.0", "300", "300.0", "300.1", "023",
	"D023N", "d023i", "D088N", "D23N", "D023", "023N", "146.52", "146.520000", "146.5200000", "146.5200001", "9999.999999", "9999.9999990", "10000", "146,52", "1e3", "146.52 ",
	"+5", "-0.6", "+100", "+100.0", "+100.000001", "-100", "+0.000001", "+0.0000001", "5", "16777215", "16777216", "90", "90.0", "90.000001", "-90", "-90.1", "180", "180.1", "-180.000000",
	"-500", "-500.1", "10000.0", "10000.1", "12.55", "1000000", "1000000.001", "3600", "3601", "007", "10000000", "10000001", "2026", "2025", "2999", "3000",
	"low", "Low", "yes", "YES", "No", "oN", "true", "nope", "wide", "Narrow", "narow", "channel free", "Channel  free", "polite to all", "private", "fm", "always", "block", "ſ", "bloc\u212a",
	"2027-06-01", "2027-06-31", "2024-02-29", "2023-02-29", "2000-02-29", "1900-02-29", "2027-6-1", "0000-01-01", "2027-13-01",
	"144-148", " 144 - 148 ", "148", "144-", "144-148-150", "144–148", "dn70", "DN70vc", "DN7", "DN70v", "SN70", "DN70vc12", "DN70vc12ab", "DN70vc12aby",
	"N0QRV", "n0qrv", "N0", "ABC", "123", "A1B", "1AB", "AB1", "N0QRV/P", "N0QRVABCDEF", "N0QRVABCDE", "US-AL", "us-al", "USA", "US-ALAB", "US-",
	"a", "A", "a-b", "-a", "a-", "ridge/fm", "ridge/1/statewide", "a/b/c/d", "*/fm", "*", "a/*", "*/*/*", "zone:a", "zone:", "zone:*", "a/", strings.Repeat("a", 64), strings.Repeat("a", 65),
	"neighbors.csv", "lists/neighbors.csv", "./neighbors.csv", "../neighbors.csv", "a//neighbors.csv", ".a/neighbors.csv", "/neighbors.csv", "c:neighbors.csv", "a\\neighbors.csv", "neighbours.csv", "x.csv",
	"x\x00", "x\ny", "\n", "x\n", "\u200b", "x\u200d", "\u200d", "\u202e", "x\u2028", "\ufffd", "\u00a0", "\u3000x", "x\u00ad", "\U000e0001", "é", "日本", "\U0001f4fb", strings.Repeat("é", 200), strings.Repeat("é", 201),
	strings.Repeat("1", 39), strings.Repeat("1", 41), "1." + strings.Repeat("0", 37), "1." + strings.Repeat("0", 39),
}

// patternCannotSay reports whether a text is one of those that a pattern takes or leaves
// against the parser, each for a reason.
func patternCannotSay(name, text string) bool {
	switch name {
	case "band": // which end is the lower one, and the zeros of an absurdly long number
		_, err := ParseBand(text)
		return err != nil && (strings.Contains(err.Error(), "ends before it begins") || strings.Contains(err.Error(), "is too long for a number"))
	case "note": // line ends behind a note do not count
		return strings.HasSuffix(text, "\n")
	}
	return len(text) >= longestNumber // the sign and the zeros of an absurdly long number
}

// takes makes what reports whether a text is spelled so.
func takes(s Spelling) func(string) bool {
	pattern := regexp.MustCompile(s.Pattern)
	return func(text string) bool {
		if slices.ContainsFunc(s.Words, func(w string) bool { return strings.EqualFold(w, text) }) {
			return true
		}
		return s.Pattern != "" && pattern.MatchString(text) && (s.Longest == 0 || utf8.RuneCountInString(text) <= s.Longest)
	}
}

func TestSpellingsAreThoseOfTheParsers(t *testing.T) {
	for name, at := range spelledFields(t) {
		t.Run(name, func(t *testing.T) {
			spelling, _ := at.f.Spelling()
			takes := takes(spelling)
			agree := func(t rapid.TB, text string) {
				err := at.f.Set(at.r, []string{text})
				if takes(text) != (err == nil) && !patternCannotSay(name, text) {
					t.Fatalf("%q: spelled so is %v, and the parser says %v\n%.300s", text, takes(text), err, spelling.Pattern)
				}
			}
			taken := 0
			for _, text := range nearMisses {
				agree(t, text)
				if takes(text) {
					taken++
				}
			}
			if taken == 0 || taken == len(nearMisses) {
				t.Fatalf("%d of the texts are taken: they show nothing", taken)
			}
			rapid.Check(t, func(t *rapid.T) {
				text := rapid.SampledFrom(nearMisses).Draw(t, "near")
				if pattern := spelling.Pattern; pattern != "" && len(pattern) < 4000 && rapid.Bool().Draw(t, "spelled") {
					text = rapid.StringMatching(pattern).Draw(t, "text")
				}
				runes := []rune(text)
				for range rapid.IntRange(0, 2).Draw(t, "slips") {
					at := rapid.IntRange(0, len(runes)).Draw(t, "at")
					switch slip := rapid.SampledFrom([]rune("0159.-+/aAzZDN \u00a0")).Draw(t, "slip"); {
					case at < len(runes) && rapid.Bool().Draw(t, "over"):
						runes[at] = slip
					default:
						runes = slices.Insert(runes, at, slip)
					}
				}
				agree(t, string(runes))
			})
		})
	}
}
