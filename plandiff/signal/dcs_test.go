package signal

import (
	"fmt"
	"math/bits"
	"strings"
	"testing"
)

func TestParseDCS(t *testing.T) {
	refused := func(text, sentence string) string { return fmt.Sprintf("DCS code %q %s", text, sentence) }
	testParse(t, ParseDCS, []parseCase[DCS]{
		{name: "normal", why: "N is normal", text: "D023N", want: DCS{Code: 0o23}},
		{name: "inverted", why: "I is inverted", text: "D023I", want: DCS{Code: 0o23, Inverted: true}},
		{name: "small letters", why: "case does not matter", text: "d754i", want: DCS{Code: 0o754, Inverted: true}},
		{name: "highest", why: "nine bits", text: "D777N", want: DCS{Code: 0o777}},

		{name: "bare", why: "YAML 1.1 reads 023 as 19 (units.md 4), and half the equipment guesses the polarity", text: "023", err: refused("023", "lacks its polarity; write D023N for normal or D023I for inverted")},
		{name: "no polarity", why: "as above", text: "D023", err: refused("D023", "lacks its polarity; write D023N for normal or D023I for inverted")},
		{name: "two digits", why: "a spreadsheet turns 023 into 23, and 23 is not 023 (signalling.md 2.6)", text: "23", err: refused("23", "has fewer than three digits; if the zero got lost, write D023N or D023I")},
		{name: "two digits, marked", why: "as above", text: "D23N", err: refused("D23N", "has fewer than three digits; if the zero got lost, write D023N or D023I")},
		{name: "one digit", why: "as above", text: "D5N", err: refused("D5N", "has fewer than three digits; if the zero got lost, write D005N or D005I")},
		{name: "four digits", why: "one was typed twice", text: "D0233N", err: refused("D0233N", "has more than three digits; "+writeDCS)},
		{name: "digit 8", why: "digits 8 and 9 are a typing error (signalling.md 2.6)", text: "D083N", err: refused("D083N", "has a digit 8 or 9; DCS digits go from 0 to 7: look the code up again")},
		{name: "digit 9", why: "as above", text: "019", err: refused("019", "has a digit 8 or 9; DCS digits go from 0 to 7: look the code up again")},
		{name: "R", why: "reversed means inverted (common practice, no source)", text: "D023R", err: refused("D023R", "has the polarity R; write I for inverted: D023I"), fix: "D023I"},
		{name: "no D", why: "the D keeps YAML from reading a number", text: "023N", err: refused("023N", "lacks the D; write D023N"), fix: "D023N"},
		{name: "space", why: "the text as written is taken", text: "D023N ", err: refused("D023N ", "has a space around it; write it without: D023N"), fix: "D023N"},
		{name: "empty", why: "an empty cell is no code", text: "", err: refused("", "is empty; "+writeDCS)},
		{name: "CTCSS", why: "hertz are no code", text: "103.5", err: refused("103.5", "is not a DCS code; "+writeDCS)},
		{name: "letter O", why: "no digit", text: "DO23N", err: refused("DO23N", "is not a DCS code; "+writeDCS)},
	})
}

// TestDCSIsPublished compares all 104 codes with dcs.csv, computed apart and checked against the
// parity equations of mmi-comm.tripod.com, the onfreq.com listings and Hamlib's list, as
// signalling.md 2.4 says.
func TestDCSIsPublished(t *testing.T) {
	table := readTable(t, "dcs.csv")
	if len(table) != len(StandardDCS()) {
		t.Fatalf("%d codes, want %d", len(StandardDCS()), len(table))
	}
	for i, row := range table {
		d, err := ParseDCS("D" + row["code"] + "N")
		if err != nil || StandardDCS()[i] != d || !d.Standard() {
			t.Fatalf("code %d of the list is %s, want %s, %v", i, StandardDCS()[i], row["code"], err)
		}
		inverted := DCS{Code: d.Code, Inverted: true}
		onAir := fmt.Sprintf("%023b", bits.Reverse32(d.Word())>>(32-wordBits))
		for _, check := range []struct{ what, got, want string }{
			{"codeword_hex", fmt.Sprintf("0x%06X", d.Word()), row["codeword_hex"]},
			{"codeword_msb_first", fmt.Sprintf("%023b", d.Word()), row["codeword_msb_first"]},
			{"sent_first_to_last", onAir, row["sent_first_to_last"]},
			{"aliases_same_polarity", codes(d, false, row["code"]), row["aliases_same_polarity"]},
			{"inverted_is", inverted.Canonical().String(), "D" + row["inverted_is"] + "N"},
			{"inverted_all_spellings", codes(inverted, false, ""), row["inverted_all_spellings"]},
		} {
			if check.got != check.want {
				t.Errorf("%s: %s is %s, want %s", d, check.what, check.got, check.want)
			}
		}
		if d.Canonical() != d {
			t.Errorf("%s is %s in canonical form", d, d.Canonical())
		}
	}
}

// codes returns the spellings of d in one polarity but for one, as the tables write them.
func codes(d DCS, inverted bool, but string) string {
	var found []string
	for _, s := range d.Spellings() {
		if code := fmt.Sprintf("%03o", s.Code); s.Inverted == inverted && code != but {
			found = append(found, code)
		}
	}
	return strings.Join(found, " ")
}

// TestDCSClasses compares all 512 codes with the 177 signals of dcs-classes.csv.
func TestDCSClasses(t *testing.T) {
	seen := map[uint16]bool{}
	table := readTable(t, "dcs-classes.csv")
	if len(table) != 177 {
		t.Fatalf("%d signals, want 177 (signalling.md 2.3)", len(table))
	}
	for _, row := range table {
		var canonical DCS
		for i, code := range strings.Fields(row["codes_same_signal"]) {
			d, err := ParseDCS("D" + code + "N")
			if err != nil || seen[d.Code] {
				t.Fatalf("%s: seen %v, %v", code, seen[d.Code], err)
			}
			seen[d.Code] = true
			if i == 0 {
				canonical = d.Canonical()
			}
			if got := codes(d, false, ""); got != row["codes_same_signal"] {
				t.Errorf("%s is also %s, want %s", d, got, row["codes_same_signal"])
			}
			if got := codes(d, true, ""); got != row["inverted_codes"] {
				t.Errorf("%s is inverted %s, want %s", d, got, row["inverted_codes"])
			}
			if d.Canonical() != canonical || !d.Same(canonical) {
				t.Errorf("%s is %s in canonical form, want %s", d, d.Canonical(), canonical)
			}
		}
		if want := "D" + row["canonical"] + "N"; canonical.String() != want {
			t.Errorf("canonical is %s, want %s", canonical, want)
		}
		if ones := fmt.Sprint(bits.OnesCount32(canonical.Word())); ones != row["ones_in_word"] {
			t.Errorf("%s has %s ones, want %s", canonical, ones, row["ones_in_word"])
		}
	}
	if len(seen) != 512 {
		t.Errorf("%d codes, want all 512", len(seen))
	}
}

// TestGolay checks the words by what is known of the code itself: it is cyclic with this
// generator, and two words of the binary Golay code (23,12,7) differ in at least seven bits
// (Golay, "Notes on Digital Coding", 1949).
func TestGolay(t *testing.T) {
	var words []uint32
	for code := range uint16(512) {
		word := DCS{Code: code}.Word()
		rest := word
		for bit := 22; bit >= 11; bit-- {
			if rest>>bit&1 == 1 {
				rest ^= 0xC75 << (bit - 11)
			}
		}
		if rest != 0 || word&0xFFF != 0x800|uint32(code) || word>>23 != 0 {
			t.Errorf("%03o: %06X leaves %X and ends in %X", code, word, rest, word&0xFFF)
		}
		for _, other := range words {
			if apart := bits.OnesCount32(word ^ other); apart < 7 {
				t.Fatalf("%06X and %06X differ in %d bits", word, other, apart)
			}
		}
		words = append(words, word)
		if inverted := (DCS{Code: code, Inverted: true}).Word(); inverted^word != 0x7FFFFF {
			t.Errorf("%03o inverted is %06X", code, inverted)
		}
	}
	if got := (DCS{Code: 0o23}).Word(); got != 0x763813 {
		t.Errorf("023 is %06X, want 763813 (signalling.md 2.2, worked)", got)
	}
}

func TestSpellingsWorked(t *testing.T) {
	for _, c := range []struct{ text, canonical, spellings, why string }{
		{"D023I", "D047N", "D047N D375N D707N D023I D340I D766I", "worked in signalling.md 2.2"},
		{"D766N", "D023N", "D023N D340N D766N D047I D375I D707I", "the same the other way"},
		{"D250I", "D112I", "D112I D250I D505I D512I", "the one signal without a normal spelling (signalling.md 2.2)"},
		{"D535N", "D122N", "D122N D535N D225I D536I", "the published file has 125; its own parity equations say 122 (signalling.md 2.4)"},
		{"D645N", "D526N", "D526N D562N D645N D325I D550I D626I", "a list with 645 in place of 455 offers one signal twice (signalling.md 2.4)"},
	} {
		d, err := ParseDCS(c.text)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, s := range d.Spellings() {
			all = append(all, s.String())
			if !s.Same(d) || s.Canonical() != d.Canonical() {
				t.Errorf("%s and %s are not the same", s, d)
			}
		}
		if d.Canonical().String() != c.canonical {
			t.Errorf("%s is %s in canonical form, want %s: %s", d, d.Canonical(), c.canonical, c.why)
		}
		if got := strings.Join(all, " "); got != c.spellings {
			t.Errorf("%s is spelled %s, want %s: %s", d, got, c.spellings, c.why)
		}
	}
}
