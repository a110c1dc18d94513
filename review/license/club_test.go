package license

import (
	"strings"
	"testing"
)

func clubRows(t *testing.T, lines ...string) []Row {
	t.Helper()
	rows, err := ReadRows("club.csv", Club, []byte(rowColumns+"\n"+strings.Join(lines, "\n")+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// A club narrows what the law allows, and adds what the tables lack; either is shown as its own.
func TestWith(t *testing.T) {
	fr := region(t, "FR")
	club, err := fr.With(clubRows(t,
		`,amateur,,,145.2,145.3,no,phone-digital,,,,our net stays analog,decision of the club,2026-03,read,`,
		`,amateur,,,70.0,70.5,yes,all,,10,ERP,ours,national notice,2026-01,read,`)...)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		tables *Tables
		mhz    string
		e      Emission
		want   Outcome
		why    string
	}{
		{fr, "145.25", DMRVoice(), Allowed, "without the club's rows"},
		{club, "145.25", DMRVoice(), Denied, "narrowed"},
		{club, "145.25", FMNarrow(), Allowed, "not for FM"},
		{fr, "70.2", FMNarrow(), Doubtful, "in some countries only"},
		{club, "70.2", FMNarrow(), Allowed, "the club read its own law"},
		{club, "146.5", FMNarrow(), Denied, "nothing else has changed"},
	}
	for _, tt := range tests {
		v := tt.tables.Transmit(Query{Center: mhz(t, tt.mhz), Emission: tt.e})
		if v.Outcome != tt.want {
			t.Errorf("%s %s: %v %v; want %v: %s", tt.mhz, tt.e.Designator, v.Outcome, reasons(v), tt.want, tt.why)
		}
	}
	if v := club.Transmit(Query{Center: 70_200_000, Emission: FMNarrow()}); v.Rows[0].Jurisdiction != Club || v.Fallback {
		t.Errorf("the verdict rests on %s, fallback %v; want the club", v.Rows[0].Jurisdiction, v.Fallback)
	}
	if rows := club.At(145_250_000).Rows; len(rows) != 2 {
		t.Errorf("a listing has %d rows; want the region's and the club's", len(rows))
	}
}

func TestWithRefuses(t *testing.T) {
	us := region(t, "US")
	_, err := us.With(clubRows(t,
		`beginner,amateur,,,145.2,145.3,no,all,,,,,x,y,read,`,
		`,amateur,,our hill,145.2,145.3,no,all,,,,,x,y,read,`)...)
	for _, want := range []string{"club.csv:2:", "novice, technician", "club.csv:3:", "our hill"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("the error lacks %q: %v", want, err)
		}
	}
	if _, err := us.With(Row{}); err == nil {
		t.Error("an empty row was taken")
	}
}
