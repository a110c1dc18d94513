package signal

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func TestParseTone(t *testing.T) {
	refused := func(text, sentence string) string { return fmt.Sprintf("tone %q %s", text, sentence) }
	dcs023 := DCS{Code: 0o23}
	testParse(t, ParseTone, []parseCase[Tone]{
		{name: "CTCSS", why: "hertz", text: "103.5", want: CTCSS(1035).Tone()},
		{name: "CTCSS without decimals", why: "a spreadsheet cuts 67.0", text: "67", want: CTCSS(670).Tone()},
		{name: "listed tone of three octal digits", why: "123.0 Hz is listed, 100.0 too", text: "123", want: CTCSS(1230).Tone()},
		{name: "unlisted tone with its decimal", why: "the decimal says hertz", text: "131.0", want: CTCSS(1310).Tone()},
		{name: "DCS", why: "a D and a polarity", text: "d023n", want: dcs023.Tone()},
		{name: "DCS zero", why: "it is not the absent tone", text: "D000N", want: DCS{}.Tone()},

		{name: "three octal digits, unlisted", why: "131 is a listed DCS code and no listed tone", text: "131",
			err: refused("131", "could be a DCS code and is no listed CTCSS tone; write D131N or D131I for DCS, or 131.0 if hertz are meant")},
		{name: "the same with a zero", why: "dropping the zero leaves the question", text: "0131",
			err: refused("0131", "begins with a zero too many; write D131N or D131I for DCS, or 131.0 if hertz are meant")},
		{name: "bare DCS", why: "the zero in front says DCS", text: "023",
			err: refused("023", "looks like a DCS code; write D023N or D023I for DCS, hertz such as 103.5 for CTCSS")},
		{name: "DCS without D", why: "the polarity says DCS", text: "023N", err: `DCS code "023N" lacks the D; write D023N`, fix: "D023N"},
		{name: "DCS without polarity", why: "the D says DCS", text: "D023", err: `DCS code "D023" lacks its polarity; write D023N for normal or D023I for inverted`},
		{name: "none", why: "what is not there is not written", text: "none", err: refused("none", "is not a tone; leave the tone out where there is none")},
		{name: "empty", why: "as above", text: "", err: refused("", "is empty; write hertz such as 103.5, a DCS code such as D023N, or leave it out")},
		{name: "nonsense", why: "neither", text: "high", err: refused("high", "is not a number; write hertz, as in 103.5")},
	})
}

func TestToneHoldsOne(t *testing.T) {
	none, ctcss, dcs := Tone{}, CTCSS(1035).Tone(), DCS{}.Tone()
	for _, c := range []struct {
		tone            Tone
		zero, isC, isD  bool
		text, marshaled string
	}{
		{none, true, false, false, "none", ""},
		{ctcss, false, true, false, "103.5", "103.5"},
		{dcs, false, false, true, "D000N", "D000N"},
	} {
		_, isC := c.tone.CTCSS()
		_, isD := c.tone.DCS()
		marshaled, err := c.tone.MarshalText()
		if c.tone.IsZero() != c.zero || isC != c.isC || isD != c.isD || c.tone.String() != c.text || string(marshaled) != c.marshaled || err != nil {
			t.Errorf("%v: zero %v, CTCSS %v, DCS %v, %q, %v", c.tone, c.tone.IsZero(), isC, isD, marshaled, err)
		}
	}
}

func TestToneSame(t *testing.T) {
	tone := func(text string) Tone {
		if text == "" {
			return Tone{}
		}
		tone, err := ParseTone(text)
		if err != nil {
			t.Fatal(err)
		}
		return tone
	}
	for _, c := range []struct {
		a, b string
		same bool
		why  string
	}{
		{"103.5", "103.5", true, "one tone"},
		{"67", "67.0", true, "two texts of one tone"},
		{"103.5", "100.0", false, "two tones"},
		{"D023I", "D047N", true, "one signal (signalling.md 2.2)"},
		{"D023N", "D023I", false, "no code is its own inverse (signalling.md 2.3)"},
		{"D000N", "", false, "a code of zeros is sent"},
		{"", "", true, "nothing is sent twice"},
		{"103.5", "", false, "one of them is sent"},
		{"D131N", "131.0", false, "a code and a tone"},
	} {
		a, b := tone(c.a), tone(c.b)
		if a.Same(b) != c.same || b.Same(a) != c.same {
			t.Errorf("%s and %s: same is %v, want %v: %s", a, b, a.Same(b), c.same, c.why)
		}
	}
}

// TestSameIsAnEquivalence checks that Same is symmetric and transitive through the
// canonical form, for any tone.
func TestSameIsAnEquivalence(t *testing.T) {
	any := rapid.Custom(func(t *rapid.T) Tone {
		if rapid.Bool().Draw(t, "digital") {
			return DCS{Code: rapid.Uint16Range(0, largestDCS).Draw(t, "code"), Inverted: rapid.Bool().Draw(t, "inverted")}.Tone()
		}
		return CTCSS(rapid.Uint16Range(330, 3000).Draw(t, "decihertz")).Tone()
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := any.Draw(t, "a"), any.Draw(t, "b")
		if again, err := ParseTone(a.String()); again != a || err != nil {
			t.Fatalf("%s is read as %s, %v", a, again, err)
		}
		if a.Same(b) != b.Same(a) || !a.Same(a) {
			t.Fatalf("%s and %s: %v one way, %v the other", a, b, a.Same(b), b.Same(a))
		}
		if dcs, ok := a.DCS(); ok {
			for _, s := range dcs.Spellings() {
				if !s.Tone().Same(a) || s.Tone().Same(b) != a.Same(b) {
					t.Fatalf("%s is a spelling of %s and not the same", s, a)
				}
			}
		}
	})
}
