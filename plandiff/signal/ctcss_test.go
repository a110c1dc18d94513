package signal

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strconv"
	"testing"
)

// readTable returns the rows of a table in testdata by the names of their columns.
func readTable(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	var table []map[string]string
	for _, row := range rows[1:] {
		record := map[string]string{}
		for i, column := range rows[0] {
			record[column] = row[i]
		}
		table = append(table, record)
	}
	return table
}

func TestParseCTCSS(t *testing.T) {
	const either = "write hertz such as 103.5, or a DCS code such as D023N"
	refused := func(text, sentence string) string { return fmt.Sprintf("tone %q %s", text, sentence) }
	testParse(t, ParseCTCSS, []parseCase[CTCSS]{
		{name: "one decimal", why: "the usual form", text: "103.5", want: 1035},
		{name: "no decimal", why: "a spreadsheet cuts 67.0 (units.md 4, common practice)", text: "67", want: 670},
		{name: "a zero", why: "100.0 is a tone of EIA/TIA RS-220", text: "100.0", want: 1000},
		{name: "not listed", why: "some equipment offers it; a rule may warn", text: "150.0", want: 1500},
		{name: "lowest", why: "the range begins here", text: "33.0", want: 330},
		{name: "highest", why: "the range ends here", text: "300.0", want: 3000},

		{name: "too low", why: "out of range", text: "32.9", err: refused("32.9", "is not between 33.0 and 300.0 Hz; "+either)},
		{name: "too high", why: "out of range", text: "300.1", err: refused("300.1", "is not between 33.0 and 300.0 Hz; "+either)},
		{name: "tone burst", why: "1750 Hz opens by another way (signalling.md 3)", text: "1750.0", err: refused("1750.0", "is not between 33.0 and 300.0 Hz; "+either)},
		{name: "two decimals", why: "a plan holds tenths", text: "103.55", err: refused("103.55", "is finer than 0.1 Hz; write at most one decimal")},
		{name: "zeros too many", why: "one decimal at most", text: "100.00", err: refused("100.00", "has more decimals than it needs; write 100.0"), fix: "100.0"},
		{name: "tenths", why: "1035 would be 103.5 Hz", text: "1035", err: refused("1035", "looks like tenths of a hertz; write hertz: did you mean 103.5"), fix: "103.5"},
		{name: "zero in front", why: "a fixed-width list", text: "067.0", err: refused("067.0", "begins with a zero too many; write 67.0"), fix: "67.0"},
		{name: "DCS with its zero", why: "three octal digits that begin with zero are DCS", text: "023", err: refused("023", "looks like a DCS code; write D023N or D023I for DCS, hertz such as 103.5 for CTCSS")},
		{name: "DCS above the tones", why: "no tone is 754 Hz", text: "754", err: refused("754", "looks like a DCS code; write D754N or D754I for DCS, hertz such as 103.5 for CTCSS")},
		{name: "zero", why: "no tone is a third state, not 0.0 (signalling.md 1)", text: "0", err: refused("0", "is zero; leave the tone out where there is none")},
		{name: "unit", why: "it is understood", text: "103.5 Hz", err: refused("103.5 Hz", "has a unit; write the number alone: 103.5"), fix: "103.5"},
		{name: "comma", why: "Europe writes it", text: "103,5", err: refused("103,5", "has a decimal comma; write a point: 103.5"), fix: "103.5"},
	})
}

// TestTonesArePublished compares the lists with EIA/TIA RS-220 as reprinted and with Hamlib's;
// each row of the table names its source.
func TestTonesArePublished(t *testing.T) {
	var standard, common []CTCSS
	for _, row := range readTable(t, "ctcss.csv") {
		number, err := strconv.Atoi(row["decihertz"])
		if err != nil {
			t.Fatal(err)
		}
		tone := CTCSS(number)
		isStandard := row["set"] == "standard37" || row["set"] == "standard38"
		isCommon := isStandard || row["set"] == "extended50"
		if tone.Standard() != isStandard || tone.Common() != isCommon {
			t.Errorf("%s: standard %v, common %v; want set %s", tone, tone.Standard(), tone.Common(), row["set"])
		}
		if isStandard {
			standard = append(standard, tone)
		}
		if isCommon {
			common = append(common, tone)
		}
	}
	if got := StandardCTCSS(); !slices.Equal(got, standard) || len(got) != 38 {
		t.Errorf("StandardCTCSS is %v, want %v", got, standard)
	}
	if got := CommonCTCSS(); !slices.Equal(got, common) || len(got) != 50 {
		t.Errorf("CommonCTCSS is %v, want %v", got, common)
	}
}

// TestListsAreCopies keeps a caller from changing what the next one gets.
func TestListsAreCopies(t *testing.T) {
	StandardCTCSS()[0] = 1
	CommonCTCSS()[0] = 1
	StandardDCS()[0] = DCS{Code: 1}
	if StandardCTCSS()[0] != 670 || CommonCTCSS()[0] != 670 || StandardDCS()[0].Code != 0o23 {
		t.Error("a caller changed a list")
	}
}

// TestMisprintsAreNear uses the misprints that signalling.md 1 met in published lists.
func TestMisprintsAreNear(t *testing.T) {
	for misprint, want := range map[CTCSS]CTCSS{1778: 1773, 1993: 1995, 671: 670, 694: 693, 1035: 1035, 330: 670, 3000: 2541} {
		if got := misprint.Nearest(); got != want {
			t.Errorf("nearest to %s is %s, want %s", misprint, got, want)
		}
	}
	if got := CTCSS(900).Nearest(); got != 885 {
		t.Errorf("nearest to 90.0 is %s, want the lower of 88.5 and 91.5", got)
	}
}
