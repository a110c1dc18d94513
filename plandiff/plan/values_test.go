package plan

import (
	"strings"
	"testing"
)

func TestCharsetHolds(t *testing.T) {
	for _, test := range []struct {
		name, why string
		set       Charset
		holds     string
		lacks     string
	}{
		{"ascii", "the 95 printing characters of ISO/IEC 646 (US)", "ascii", " !AZaz09~-", "\x1f\x7f\u00a0é日"},
		{"not stated", "the least that every radio shows", "", " Az~", "é\n"},
		{"latin-1", "ISO/IEC 8859-1: two ranges, with a hole of control characters between", "latin-1", " ~\u00a0éÿ", "\x7f\u0080\u009f\u0100€日"},
		{"unicode", "all that prints", "unicode", "é日📻", "\x00\u200b\n"},
		{"own set", "ranges and single characters, a hyphen at the end", "A-Z0-9 /-", "AMZ059 /-", "az.:_"},
		{"hyphen first", "it begins no range", "-A", "-A", "B,"},
		{"one character", "a set of one", "X", "X", "xY"},
		{"range of other letters", "not only ASCII", "а-я", "абя", "a-А"},
		{"range the wrong way", "it holds nothing", "Z-A", "", "AMZ-"},
	} {
		t.Run(test.name, func(t *testing.T) {
			for _, r := range test.holds {
				if !test.set.Holds(r) {
					t.Errorf("%s: %q is not in it", test.why, r)
				}
			}
			for _, r := range test.lacks {
				if test.set.Holds(r) {
					t.Errorf("%s: %q is in it", test.why, r)
				}
			}
		})
	}
}

// From memory of ISO 8601 and the Gregorian calendar: 2000 and 2028 are leap years, 2100 is none.
func TestParseDate(t *testing.T) {
	for text, ok := range map[string]bool{
		"2027-06-01": true, "2028-02-29": true, "2000-02-29": true, "2100-02-29": false, "2027-02-29": false, "2027-13-01": false,
		"2027-6-1": false, "27-06-01": false, "2027-06-01T00:00": false, " 2027-06-01": false, "": false, "20270601": false,
	} {
		d, err := ParseDate(text)
		if (err == nil) != ok || ok && d.String() != text {
			t.Errorf("%q: got %v, %v", text, d, err)
		}
	}
	if a, b := (Date{2027, 6, 1}), (Date{2027, 10, 1}); !a.Before(b) || b.Before(a) || a.Before(a) {
		t.Error("June comes before October, and no day before itself")
	}
}

func TestParseBand(t *testing.T) {
	for text, want := range map[string]string{
		"144-148": "144-148", "144.000-148.0": "144-148", "26.965 - 27.405": "26.965-27.405", "430-440": "430-440", "1240-1300": "1240-1300",
		"148-144": "", "144-144": "", "144": "", "144-": "", "-148": "", "144-148-150": "", "2m": "",
	} {
		b, err := ParseBand(text)
		if err != nil && want != "" || err == nil && b.String() != want {
			t.Errorf("%q: got %v, %v, want %q", text, b, err, want)
		}
	}
}

func TestNearest(t *testing.T) {
	for _, test := range []struct{ name, why, text, words, want string }{
		{"one letter", "a slip", "statwide", "state statewide local", "statewide"},
		{"case", "capitals are no edit", "RIDGE", "ridge", "ridge"},
		{"too far", "a guess that wrong is worse than none", "mill", "ridge knob", ""},
		{"short word", "one edit is all that a short word allows", "ab", "ac xyz", "ac"},
		{"two as near", "the first in the alphabet, whatever the order", "b", "c a", "a"},
		{"nothing known", "nothing to suggest", "x", "", ""},
		{"nothing written", "nothing was meant", "", "abc", ""},
		{"very long", "nobody means a key that is longer than a key can be", strings.Repeat("a", 65), strings.Repeat("a", 64), ""},
	} {
		if got := Nearest(test.text, strings.Fields(test.words)); got != test.want {
			t.Errorf("%s: %s: got %q, want %q", test.name, test.why, got, test.want)
		}
	}
}

func TestRenamesTranslate(t *testing.T) {
	names := Renames{
		{KindRepeater, "ridge"}: "hill", {KindGroup, "state"}: "wide", {KindZone, "valley"}: "vale",
		{KindChannel, "call"}: "calling", {KindScanList, "s"}: "sweep", {KindReceiveList, "l"}: "list",
		{KindGroup, "ridge"}: "rg", // another kind with the same key
	}
	for _, test := range []struct {
		name, why  string
		ref        Ref
		text, want string
	}{
		{"group", "its own kind", RefGroup, "state", "wide"},
		{"group with the key of a repeater", "kinds do not mix", RefGroup, "ridge", "rg"},
		{"unknown", "it stays", RefGroup, "other", "other"},
		{"talk path", "repeater and group", RefEntry, "ridge/1/state", "hill/1/wide"},
		{"talk path of another repeater", "the group alone", RefEntry, "mill/2/ridge", "mill/2/rg"},
		{"fm path", "no group there", RefEntry, "ridge/fm", "hill/fm"},
		{"pattern", "the rest of it stays", RefEntry, "*/*/state", "*/*/wide"},
		{"all of a repeater", "the star stays", RefEntry, "ridge/*", "hill/*"},
		{"zone", "by its prefix", RefEntry, "zone:valley", "zone:vale"},
		{"channel", "a bare key", RefEntry, "call", "calling"},
		{"channel with the key of a repeater", "a bare key is no repeater", RefEntry, "ridge", "ridge"},
		{"receive list", "its own kind", RefReceiveList, "l", "list"},
		{"word for a receive list", "it is no key", RefReceiveList, "slot", "slot"},
		{"scan list", "its own kind", RefScanList, "s", "sweep"},
		{"zone of a radio", "its own kind", RefZone, "valley", "vale"},
		{"shortcut", "a group", RefCall, "state", "wide"},
		{"shortcut to a person", "a callsign stays", RefCall, "N0QRV", "N0QRV"},
		{"acceptance of a path", "a talk path", RefAcceptance, "ridge/1/state", "hill/1/wide"},
		{"acceptance by kind", "the kind is said", RefAcceptance, "scan list s", "scan list sweep"},
		{"acceptance of a bare key", "the first kind that has it", RefAcceptance, "ridge", "hill"},
		{"text that is no reference", "it stays", NoRef, "ridge", "ridge"},
	} {
		if got := names.Translate(test.ref, test.text); got != test.want {
			t.Errorf("%s: %s: got %q, want %q", test.name, test.why, got, test.want)
		}
	}
}

// TestRenamesThen follows keys through two changes.
func TestRenamesThen(t *testing.T) {
	thing := func(key string) Thing { return Thing{KindRepeater, key} }
	first := Renames{thing("a"): "b", thing("c"): "d"}
	next := Renames{thing("b"): "x", thing("e"): "f", {KindZone, "d"}: "z"}
	got := first.Then(next)
	for was, want := range map[string]string{"a": "x", "c": "d", "e": "f", "g": "g"} {
		if is := got.Key(KindRepeater, was); is != want {
			t.Errorf("%s is %s now, want %s", was, is, want)
		}
	}
	if none := Renames(nil).Then(nil); len(none) != 0 || none == nil {
		t.Errorf("nothing was renamed: %v", none)
	}
}
