package license

import (
	"strings"
	"testing"

	"passband.example/plandiff/signal"
)

const goodRow = `,amateur,,,144.0,146.0,yes,all,,10,ERP,,own table,2026,read,`

func TestReadRows(t *testing.T) {
	rows, err := ReadRows("club.csv", "club", []byte("# ours\n"+rowColumns+"\n"+goodRow+"\n"+
		`n|e,amateur,repeater,line-a,430.000001,9999.5,no,phone-digital|data,12500,,,"a, b",x,y,memory,z`+"\n"))
	if err != nil || len(rows) != 2 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	first, second := rows[0], rows[1]
	if first.Low != 144_000_000 || first.High != 146_000_000 || first.MaxPower != 10_000 || first.PowerKind != ERP || first.Emissions != Every || first.Line != 3 || first.File != "club.csv" {
		t.Errorf("the first row is %+v", first)
	}
	if second.Low != 430_000_001 || second.High != 9_999_500_000 || second.Station != Repeater || second.Right != No || second.Emissions != PhoneDigital|Data ||
		second.MaxWidth != 12_500 || second.Confidence != Memory || len(second.Classes) != 2 || second.Condition != "a, b" || second.Jurisdiction != "club" {
		t.Errorf("the second row is %+v", second)
	}
}

func TestReadRowsRefuses(t *testing.T) {
	change := func(old, new string) string { return strings.Replace(goodRow, old, new, 1) }
	tests := []struct{ row, problem, why string }{
		{change("146.0", "144.0"), "144.000 to 144.000 is no range", "no width"},
		{change("146.0", "143.0"), "is no range", "the wrong way round"},
		{change("144.0", "0.0"), "is no range", "zero"},
		{change("144.0", "-144.0"), `low_mhz "-144.0" is no frequency`, "negative"},
		{change("144.0", "1e2"), "is no frequency", "an exponent"},
		{change("144.0", "144.0000001"), "is no frequency", "finer than a hertz"},
		{change("144.0", ""), "low_mhz is empty", "missing"},
		{change("144.0", "1234567.0"), "is no frequency", "a frequency in kHz"},
		{change("yes", "maybe"), `transmit "maybe" is none of ["yes" "no" "permit"]`, "an unknown word"},
		{change("all", "CW|talk"), "has a word that is not known", "an unknown emission"},
		{change("all", ""), "has a word that is not known", "no emission"},
		{change("10,ERP", "10,"), "a power and what it measures go together", "a power of no kind"},
		{change("10,ERP", ",ERP"), "a power and what it measures go together", "a kind without power"},
		{change("10,ERP", "ten,ERP"), "max_power_w", "no number"},
		{change("all,,", "all,-5,"), `max_width_hz "-5" is no width`, "a negative width"},
		{change("all,,", "all,12.5,"), `max_width_hz "12.5" is no width`, "kHz for Hz"},
		{change("own table", ""), "source is empty", "no source"},
		{change("2026", " "), "edition is empty", "no edition"},
		{change("read", "sure"), `confidence "sure"`, "an unknown word"},
		{change("amateur", "land mobile"), "an amateur license gives no right there", "a right in another service"},
		{change("amateur", ""), "service is empty", "no service"},
		{goodRow + "\n" + goodRow, "is the same as line 2", "twice the same"},
		{"a,b", "wrong number of fields", "too few cells"},
		{`"`, "quote", "broken CSV"},
	}
	for _, tt := range tests {
		_, err := ReadRows("x.csv", "X", []byte(rowColumns+"\n"+tt.row+"\n"))
		if err == nil || !strings.Contains(err.Error(), tt.problem) || !strings.Contains(err.Error(), "x.csv") {
			t.Errorf("%s: %v; want %q", tt.why, err, tt.problem)
		}
	}
	for _, text := range []string{"", "low_mhz,high_mhz\n", "# only this\n"} {
		if _, err := ReadRows("x.csv", "X", []byte(text)); err == nil {
			t.Errorf("%q was read without its header", text)
		}
	}
	_, err := ReadRows("x.csv", "X", []byte(rowColumns+"\n"+change("yes", "maybe")+"\n"+change("read", "sure")+"\n"))
	if err == nil || !strings.Contains(err.Error(), "x.csv:2:") || !strings.Contains(err.Error(), "x.csv:3:") {
		t.Errorf("both lines must be named: %v", err)
	}
}

// Other tables refuse what is theirs alone to refuse.
func TestReadOthersRefuse(t *testing.T) {
	tests := []struct{ problem, why, text string }{
		{"is not in the middle", "a channel that is not in its segment's middle", segmentColumns + "\n144.0,144.1,144.06,calling,calling-FM,custom,,,,source,2026,read,\n"},
		{`split "5" has no sign`, "a split without a sign", splitColumns + "\n2m,144.0,146.0,5,source,2026,read,\n"},
		{"width_hz", "a service without a width", serviceColumns + "\nx,y,162.4,,,,,nobody,law,source,2026,read,\n"},
		{"west to east", "a line that turns back", lineColumns + "\na,48,-90,parallel,\na,48,-95,end,\n"},
		{"latitude", "a latitude beyond the pole", lineColumns + "\na,98,-90,end,\n"},
		{"no points of", "a line without points", placeColumns + "\na,b,line,,,,,,,source,2026,read,\n"},
		{"shape", "an unknown shape", placeColumns + "\na,b,blob,,,,,,,source,2026,read,\n"},
		{"no distance", "a belt that is no number", placeColumns + "\na,b,box,1,2,3,4,NaN,,source,2026,read,\n"},
		{"itu_region", "a fourth region", countryColumns + "\nXX,x,4,,\n"},
	}
	for _, tt := range tests {
		data := []byte(tt.text)
		var err error
		switch header, _, _ := strings.Cut(tt.text, "\n"); header {
		case segmentColumns:
			_, err = readSegments("x", "X", data)
		case splitColumns:
			_, err = readSplits("x", "X", data)
		case serviceColumns:
			_, err = readServices("x", "X", data)
		case lineColumns:
			_, err = readLines("x", data)
		case placeColumns:
			_, err = readPlaces("x", data, nil)
		case countryColumns:
			_, err = readCountries("x", data)
		}
		if err == nil || !strings.Contains(err.Error(), tt.problem) {
			t.Errorf("%s: %v; want %q", tt.why, err, tt.problem)
		}
	}
}

// The words of a set of kinds are read back as the same set.
func TestKindsRoundTrip(t *testing.T) {
	for k := Kind(1); k <= Every; k++ {
		if again, ok := parseKinds(k.String()); !ok || again != k {
			t.Fatalf("%d is written %q and read as %d, %v", k, k, again, ok)
		}
	}
	if Kind(0).String() != "none" {
		t.Errorf("no kind at all is %q", Kind(0))
	}
}

// Whatever the text, the reader returns rows that can be judged with, or errors.
func FuzzReadRows(f *testing.F) {
	f.Add(rowColumns + "\n" + goodRow + "\n")
	for _, name := range []string{"us", "gb", "jp", "any"} {
		text, err := data.ReadFile("data/bands/" + name + ".csv")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("low_mhz\n1\n")
	itu := region(f, "ITU-R1")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := ReadRows("club.csv", Club, []byte(text))
		if err != nil {
			return
		}
		for _, row := range rows {
			if row.Low <= 0 || row.High <= row.Low || row.Source == "" || row.Edition == "" || row.Emissions == 0 || row.MaxWidth < 0 || row.MaxPower < 0 {
				t.Errorf("%+v was read", row)
			}
		}
		club, err := itu.With(rows...)
		if err != nil {
			return
		}
		for _, row := range rows {
			middle := Query{Center: (row.Low + row.High) / 2, Emission: Emission{NecessaryBandwidth: 1, Kind: row.Emissions & -row.Emissions}}
			if len(row.Classes) == 0 && row.Place == "" && row.Station == Member && row.Right == No && club.Transmit(middle).Outcome == Allowed {
				t.Errorf("%s is allowed although %+v says no", middle.Center, row)
			}
		}
	})
}

func TestNamesOutOfRange(t *testing.T) {
	for _, text := range []string{Outcome(99).String(), Reason(99).String(), Station(99).String(), Confidence(99).String(), SplitFit(99).String()} {
		if text != "unknown (99)" {
			t.Errorf("%q", text)
		}
	}
	if got := signal.Hertz(16_000).KHz(); got != "16" { // what the messages of this package rest on
		t.Errorf("%q", got)
	}
}
