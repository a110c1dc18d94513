package license

import (
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
)

// Where published texts differ, the tables take one side. Each case names both.
func TestWhereSourcesDiffer(t *testing.T) {
	const wide = "16K0F3E"
	tests := []transmitCase{
		{"220-222 is not amateur in the US", "US", "221.5", wide, "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands, OtherService}, 0, "47 CFR 97.301(a) now; texts before 1991 have 220-225"},
		{"219-220 is, for forwarding of messages", "US", "219.5", "11K0F1D", "technician", Member, 0, 0, nil, Doubtful, []Reason{NeedsPermit}, 0, "47 CFR 97.301(a), 97.303, 97.305(c)(4)(iv)"},
		{"FCC Region 3 has 420-450", "US-R3", "447.0", wide, "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.301(a) from 2009; the first edition has 430-440"},
		{"auxiliary from 145.5 to 145.8", "US", "145.79", wide, "technician", Auxiliary, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.201(b) bars from 145.8"},
		{"repeater from 145.5", "US", "145.79", wide, "", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b) bars from 145.5"},
		{"GB Foundation 25 W on 2 m", "GB", "145.5", wide, "foundation", Member, 25_000, 0, nil, Allowed, nil, 0, "statement of December 2023; 10 W before"},
		{"GB Foundation 26 W on 2 m", "GB", "145.5", wide, "foundation", Member, 26_000, 0, nil, Doubtful, []Reason{PowerOver}, 0, "statement of December 2023, which does not state the kind of power"},
		{"DE repeater with 50 W ERP", "DE", "439.0", wide, "", RepeaterOutput, 0, 50_000, nil, Allowed, nil, 0, "AFuV as of June 2024; 15 W before"},
		{"DE repeater with 51 W ERP", "DE", "439.0", wide, "", RepeaterOutput, 0, 51_000, nil, Denied, []Reason{PowerOver}, 0, "AFuV as of June 2024"},
		{"AU 420-430", "AU", "425.0", wide, "advanced", Member, 0, 0, nil, Denied, []Reason{OutsideBands, NotAmateur}, 0, "spectrum plan 2021; older texts list it"},
	}
	for _, tt := range tests {
		t.Run(tt.name, tt.run)
	}
}

func TestWherePlansDiffer(t *testing.T) {
	us, gb, de := region(t, "US"), region(t, "GB"), region(t, "DE")
	usual := func(tables *Tables, output string, want ...signal.Split) {
		t.Helper()
		var got []signal.Split
		for _, row := range tables.UsualSplits(mhz(t, output)) {
			got = append(got, row.Split)
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s %s: splits %v, want %v", tables.Code, output, got, want)
		}
	}
	usual(us, "53.010", -1_000_000)            // a reference page: 1 MHz
	usual(us, "52.700", -1_000_000, -500_000)  // the national plan: 500 kHz
	usual(us, "1285.0", -12_000_000)           // the national plan
	usual(us, "1291.0", -20_000_000)           // a reference page
	usual(gb, "433.050", 1_600_000, 5_000_000) // RSGB: outputs, although the region has inputs there
	usual(gb, "430.8125", 7_600_000)           // RU65: from 430.8125 in the edition of 2025, 430.825 in 2018
	usual(de, "145.575", -600_000)             // IARU Region 1 after 2016; 145.594 before
	usual(region(t, "NZ"), "147.0", -600_000, 600_000)

	first := func(tables *Tables, f string) *Segment {
		t.Helper()
		found := tables.Segments(mhz(t, f))
		if len(found) == 0 {
			t.Fatalf("%s %s is in no segment", tables.Code, f)
		}
		return found[0]
	}
	itu := region(t, "ITU-R1")
	if s := first(itu, "145.580"); !strings.Contains(s.Use, "repeater output") || s.Superseded {
		t.Errorf("145.580 is %q; outputs begin at 145.575 in the edition after 2016", s.Use)
	}
	if all := itu.Segments(145_580_000); !all[len(all)-1].Superseded || !strings.Contains(all[len(all)-1].Use, "simplex") {
		t.Error("145.580 is simplex in the edition before, which must stand last and be marked")
	}
	if s := first(itu, "433.050"); !strings.Contains(s.Use, "repeater input") {
		t.Errorf("433.050 is %q in Region 1; inputs there", s.Use)
	}
	if s := first(gb, "433.050"); !strings.Contains(s.Use, "repeater output") || s.Plan != "GB" {
		t.Errorf("433.050 is %q of %s in GB; outputs there", s.Use, s.Plan)
	}
	if s := first(itu, "431.100"); !slices.Equal(s.Rasters, []signal.Hertz{12_500}) {
		t.Errorf("the raster at 431.100 is %v; one mirror prints 25 kHz, taken is 12.5", s.Rasters)
	}
	if s := first(gb, "432.800"); s.MaxWidth != 12_000 {
		t.Errorf("the width at 432.800 is %d; 25 kHz in 2018, 12 kHz in 2025", s.MaxWidth)
	}
	if s := first(us, "146.700"); !slices.Equal(s.Rasters, []signal.Hertz{15_000, 20_000}) {
		t.Errorf("the raster at 146.700 is %v; 15 kHz first, 20 in some states", s.Rasters)
	}
	if s := first(itu, "53.0"); s.MaxWidth != 0 || !strings.Contains(s.Note, "doubtful") {
		t.Errorf("52-54 MHz has width %d; a mirror's 500 Hz is doubtful and must not judge", s.MaxWidth)
	}
}

func TestWhereServicesDiffer(t *testing.T) {
	find := func(code, f, service string) []*ServiceRow {
		var rows []*ServiceRow
		for _, row := range region(t, code).Services(mhz(t, f), 1) {
			if row.Service == service {
				rows = append(rows, row)
			}
		}
		return rows
	}
	if rows := find("US", "156.425", "maritime mobile"); len(rows) != 1 || !strings.HasPrefix(rows[0].Name, "channel 68") {
		t.Errorf("marine channel 68 is 156.425 (156.375 is a slip of one reprint): %v", rows)
	}
	for name, f := range map[string]string{"VTAC11": "151.1375", "VTAC12": "154.4525", "VTAC13": "158.7375", "VTAC14": "159.4725"} {
		if rows := find("US", f, "public safety interoperability"); len(rows) != 1 || !strings.HasPrefix(rows[0].Name, name) {
			t.Errorf("%s is %s: %v", name, f, rows)
		}
	}
	if rows := find("DE", "446.19375", "PMR446"); len(rows) != 1 || rows[0].Name != "PMR446 channel 16" {
		t.Errorf("PMR446 has 16 channels since ECC/DEC/(15)05, 8 before: %v", rows)
	}
	for f, want := range map[string]signal.Power{"462.5625": 2_000, "467.5625": 500, "462.725": 2_000} {
		if rows := find("US", f, "FRS"); len(rows) != 1 || rows[0].MaxPower != want || rows[0].PowerKind != ERP {
			t.Errorf("FRS on %s: %v; want %v ERP (47 CFR 95.567, since 2017)", f, rows, want)
		}
	}
}

// The rows that moved in the code cite the new number.
func TestRenumberedSections(t *testing.T) {
	for _, row := range region(t, "US").Rows() {
		if row.Place == "line-a" && !strings.Contains(row.Source, "97.303(m)(1)") {
			t.Errorf("Line A cites %s; 97.303(f) is the old number", row.Source)
		}
		if row.Place == "50-watt-areas" && !strings.Contains(row.Condition, "2.106(c)(270)(i)") && row.Station == Member {
			t.Errorf("the 50 W areas cite %s", row.Condition)
		}
	}
}
