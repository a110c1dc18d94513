package signal

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func TestParseColorCode(t *testing.T) {
	testParse(t, ParseColorCode, []parseCase[ColorCode]{
		{name: "lowest", why: "four bits (dmr.md 2)", text: "0", want: 0},
		{name: "highest", why: "four bits (dmr.md 2)", text: "15", want: 15},
		{name: "above", why: "outside 0 to 15 blocks (dmr.md 2)", text: "16", err: `color code "16" is above 15; write a number from 0 to 15`},
		{name: "zero in front", why: "YAML 1.1 reads octal", text: "07", err: `color code "07" begins with a zero too many; write 7`, fix: "7"},
		{name: "decimal", why: "a spreadsheet adds it", text: "1.0", err: `color code "1.0" has a point; write a whole number: 1`, fix: "1"},
		{name: "part of one", why: "nothing is rounded", text: "1.5", err: `color code "1.5" is not a whole number; write a number from 0 to 15`},
		{name: "with its name", why: "only the number is written", text: "CC1", err: `color code "CC1" is not a number; write a number from 0 to 15`},
	})
}

func TestParseSlot(t *testing.T) {
	testParse(t, ParseSlot, []parseCase[Slot]{
		{name: "one", why: "time slots are 1 and 2 (dmr.md 1)", text: "1", want: 1},
		{name: "two", why: "time slots are 1 and 2 (dmr.md 1)", text: "2", want: 2},
		{name: "zero", why: "code counts from 0, the trade from 1", text: "0", err: `slot "0" is not a DMR time slot; write 1 or 2`},
		{name: "three", why: "there is none", text: "3", err: `slot "3" is not a DMR time slot; write 1 or 2`},
		{name: "empty", why: "a slot is a choice", text: "", err: `slot "" is empty; write 1 or 2`},
	})
}

func TestParseGroupID(t *testing.T) {
	const number = "write a number from 1 to 16777215, as in 99931"
	refused := func(text, sentence string) string { return fmt.Sprintf("group number %q %s", text, sentence) }
	testParse(t, ParseGroupID, []parseCase[GroupID]{
		{name: "lowest", why: "null is not allowed (dmr.md 3)", text: "1", want: 1},
		{name: "usual", why: "no rule for talkgroups (ids.md 1)", text: "99931", want: 99931},
		{name: "all call", why: "the highest address (dmr.md 3)", text: "16777215", want: AllCall},
		{name: "zero", why: "null is not allowed (dmr.md 3)", text: "0", err: refused("0", "is zero, which no DMR call can address; "+number)},
		{name: "25 bits", why: "2^24 = 16 777 216", text: "16777216", err: refused("16777216", "does not fit the 24 bits of a DMR address; "+number)},
		{name: "hotspot", why: "nine digits (ids.md 1, common practice)", text: "999000101", err: refused("999000101", "looks like a hotspot number, which never goes on the air; did you mean its first seven digits, the radio ID 9990001")},
		{name: "ten digits", why: "not even that", text: "9990001011", err: refused("9990001011", "does not fit the 24 bits of a DMR address; "+number)},
		{name: "zero in front", why: "001xxxx would lose its zeros (ids.md 1)", text: "0012345", err: refused("0012345", "begins with a zero too many; write 12345"), fix: "12345"},
		{name: "sign", why: "no address has one", text: "+91", err: refused("+91", "has a sign; "+number)},
		{name: "inner space", why: "two numbers may be meant", text: "99 931", err: refused("99 931", "is not a number; "+number)},
		{name: "comma", why: "two numbers may be meant", text: "99,931", err: refused("99,931", "has a comma; "+number)},
		{name: "hexadecimal", why: "the trade writes decimal", text: "0xFF", err: refused("0xFF", "is not written in decimal digits; "+number)},
	})
}

func TestParseRadioID(t *testing.T) {
	const number = "write a number from 1 to 16777215, as in 9990001"
	testParse(t, ParseRadioID, []parseCase[RadioID]{
		{name: "person", why: "seven digits (ids.md 1)", text: "9990001", want: 9990001},
		{name: "repeater", why: "six digits (ids.md 1)", text: "999001", want: 999001},
		{name: "space", why: "the text as written is taken", text: " 9990001", err: `radio ID " 9990001" has a space around it; write it without: 9990001`, fix: "9990001"},
		{name: "a callsign", why: "columns got swapped", text: "N0QRV", err: `radio ID "N0QRV" is not a number; ` + number},
	})
}

// TestAddressRanges checks both ends of every block of ETSI TS 102 361-1 annex A, table
// A.1 (dmr.md 3), and that the blocks have the sizes given there.
func TestAddressRanges(t *testing.T) {
	for _, c := range []struct {
		from, to    uint32
		group, unit AddressRange
	}{
		{0, 0, RangeNull, RangeNull},
		{1, 16_776_415, RangeTalkgroup, RangeUnit},
		{16_776_416, 16_776_927, RangeReserved, RangeReserved},
		{16_776_928, 16_776_943, RangeReserved, RangeGateway},
		{16_776_944, 16_777_183, RangeReserved, RangeCustom},
		{16_777_184, 16_777_199, RangeUnaddressed, RangeCustom},
		{16_777_200, 16_777_215, RangeAllCall, RangeAllCall},
		{16_777_216, 1<<32 - 1, RangeOutside, RangeOutside},
	} {
		for _, n := range []uint32{c.from, c.to} {
			if got := GroupID(n).Range(); got != c.group {
				t.Errorf("group %d is %s, want %s", n, got, c.group)
			}
			if got := RadioID(n).Range(); got != c.unit {
				t.Errorf("unit %d is %s, want %s", n, got, c.unit)
			}
		}
	}
	groups, units := map[AddressRange]int{}, map[AddressRange]int{}
	for n := uint32(0xFFFCE0); n <= AllCall; n++ {
		groups[GroupID(n).Range()]++
		units[RadioID(n).Range()]++
	}
	if groups[RangeReserved] != 768 || groups[RangeUnaddressed] != 16 || groups[RangeAllCall] != 16 {
		t.Errorf("group blocks: %v", groups)
	}
	if units[RangeReserved] != 512 || units[RangeGateway] != 16 || units[RangeCustom] != 256 || units[RangeAllCall] != 16 {
		t.Errorf("unit blocks: %v", units)
	}
}

func TestRangeNames(t *testing.T) {
	seen := map[string]bool{}
	for r := RangeNull; r <= RangeOutside; r++ {
		if name := r.String(); name == "" || name == "unknown" || seen[name] {
			t.Errorf("range %d is called %q", r, name)
		}
		seen[r.String()] = true
	}
	if got := AddressRange(200).String(); got != "unknown" {
		t.Errorf("a range that does not exist is called %q", got)
	}
}

func TestRadioIDCountry(t *testing.T) {
	for _, c := range []struct {
		id      RadioID
		country string
		why     string
	}{
		{2_340_001, "United Kingdom", "234 in ITU-T E.212"},
		{3_110_001, "United States of America", "311 in ITU-T E.212"},
		{208_001, "France", "208 in ITU-T E.212; six digits for a repeater"},
		{9_990_001, "Test / internal networks", "999 in ITU-T E.212"},
		{2_630_001, "", "263 is in use and not in E.212 (ids.md 1)"},
		{99_931, "", "five digits name no country"},
		{16_776_415, "", "eight digits name no country"},
		{0, "", "the zero value"},
	} {
		if got, ok := c.id.Country(); got != c.country || ok != (c.country != "") {
			t.Errorf("%s is %q, %v; want %q: %s", c.id, got, ok, c.country, c.why)
		}
	}
	if got := len(countryCodes()); got != 238 {
		t.Errorf("%d country codes, want the 238 of mcc.csv (ids.md 1)", got)
	}
}

func TestEveryAddressReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Uint32Range(1, AllCall).Draw(t, "address")
		if g, err := ParseGroupID(GroupID(n).String()); g != GroupID(n) {
			t.Fatalf("group %d is read as %d, %v", n, g, err)
		}
		if r, err := ParseRadioID(RadioID(n).String()); r != RadioID(n) {
			t.Fatalf("unit %d is read as %d, %v", n, r, err)
		}
	})
}
