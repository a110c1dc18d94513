package license

import (
	"fmt"
	"slices"
	"testing"

	"passband.example/plandiff/signal"
)

// The closest carriers to an edge, computed from 2f-B >= 2L and 2f+B <= 2U (47 CFR
// 97.307(b); bands of 97.301(a) and AFuV Anlage 1). The segment 144.0-144.1 is Morse only in
// the US, so the lower edge of 2 m is that of Germany.
func TestClosestCarriers(t *testing.T) {
	tests := []struct {
		designator                                            string
		from144, to148, to146, from430, to440, from420, to450 string
	}{
		{"20K0F3E", "144.0100", "147.9900", "145.9900", "430.0100", "439.9900", "420.0100", "449.9900"},
		{"16K0F3E", "144.0080", "147.9920", "145.9920", "430.0080", "439.9920", "420.0080", "449.9920"},
		{"12K5F3E", "144.00625", "147.99375", "145.99375", "430.00625", "439.99375", "420.00625", "449.99375"},
		{"11K2F3E", "144.0056", "147.9944", "145.9944", "430.0056", "439.9944", "420.0056", "449.9944"},
		{"11K0F3E", "144.0055", "147.9945", "145.9945", "430.0055", "439.9945", "420.0055", "449.9945"},
		{"8K50F3E", "144.00425", "147.99575", "145.99575", "430.00425", "439.99575", "420.00425", "449.99575"},
		{"7K60FXE", "144.0038", "147.9962", "145.9962", "430.0038", "439.9962", "420.0038", "449.9962"},
		{"7K60FXW", "144.0038", "147.9962", "145.9962", "430.0038", "439.9962", "420.0038", "449.9962"},
	}
	us, de := region(t, "US"), region(t, "DE")
	denver := at(39.74, -104.99) // a site, so that 420-430 is decided
	for _, tt := range tests {
		for _, edge := range []struct {
			tables *Tables
			class  Class
			f      string
			out    signal.Hertz
		}{
			{de, "a", tt.from144, -1}, {us, "technician", tt.to148, +1}, {de, "a", tt.to146, +1},
			{de, "a", tt.from430, -1}, {de, "a", tt.to440, +1}, {us, "technician", tt.from420, -1}, {us, "technician", tt.to450, +1},
		} {
			q := Query{Center: mhz(t, edge.f), Emission: emission(t, tt.designator), Class: edge.class, Site: denver}
			if v := edge.tables.Transmit(q); v.Outcome != Allowed || v.Margin != 0 {
				t.Errorf("%s %s on %s: %v, margin %d; want it to fit exactly", edge.tables.Code, tt.designator, edge.f, v.Outcome, v.Margin)
			}
			q.Center += edge.out
			v := edge.tables.Transmit(q)
			if v.Outcome != Denied || v.Objections[0].Reason != OverEdge || v.Objections[0].Below+v.Objections[0].Above != 1 {
				t.Errorf("%s %s 1 Hz past %s: %v %v; want it over the edge by 1 Hz", edge.tables.Code, tt.designator, edge.f, v.Outcome, v.Objections)
			}
			if q.Center -= edge.out; v.Nearest != q.Center {
				t.Errorf("%s %s 1 Hz past %s: the nearest is %s", edge.tables.Code, tt.designator, edge.f, v.Nearest)
			}
		}
	}
}

// Worked cases of the same arithmetic. Where a carrier does not fit, over is how far it
// reaches out, below or above; else margin is what it has to spare.
func TestReach(t *testing.T) {
	tests := []struct {
		f, designator string
		over, margin  signal.Hertz
	}{
		{"147.990", "20K0F3E", 0, 0},
		{"147.990", "16K0F3E", 0, 2_000},
		{"147.995", "16K0F3E", 3_000, 0},
		{"147.995", "11K2F3E", 600, 0},
		{"147.995", "11K0F3E", 500, 0},
		{"147.995", "8K50F3E", 0, 750},
		{"147.995", "7K60FXE", 0, 1_200},
		{"147.9975", "7K60FXE", 1_300, 0},
		{"144.005", "11K0F3E", 500, 0},
		{"144.0075", "16K0F3E", 500, 0},
		{"449.9875", "16K0F3E", 0, 4_500},
		{"449.99375", "16K0F3E", 1_750, 0},
		{"449.99375", "11K0F3E", 0, 750},
		{"449.99375", "7K60FXE", 0, 2_450},
	}
	us := region(t, "US")
	for _, tt := range tests {
		v := us.Transmit(Query{Center: mhz(t, tt.f), Emission: emission(t, tt.designator), Class: "technician"})
		if tt.over == 0 {
			if v.Outcome != Allowed || v.Margin != tt.margin {
				t.Errorf("%s %s: %v, margin %d; want %d", tt.f, tt.designator, v.Outcome, v.Margin, tt.margin)
			}
			continue
		}
		if o := v.Objections[0]; v.Outcome != Denied || o.Reason != OverEdge || o.Below+o.Above != tt.over {
			t.Errorf("%s %s: %v %v; want it over by %d", tt.f, tt.designator, v.Outcome, o, tt.over)
		}
	}
}

// The edges of the US bands where members are, to the hertz, with the segments that the
// rules cut out of them. Source: 47 CFR 97.301(a), 97.305(c), 97.205(b).
func TestUSEdgesToTheHertz(t *testing.T) {
	tests := []struct {
		name      string
		low, high string // of the segment, MHz
		station   Station
		below     Reason // what objects a hertz outside
		above     Reason
	}{
		{"2 m phone", "144.1", "148", Member, EmissionBarred, OverEdge},
		{"1.25 m", "222", "225", Member, OverEdge, OverEdge},
		{"70 cm", "420", "450", Member, OverEdge, OverEdge},
		{"2 m repeaters, lower part", "144.5", "145.5", RepeaterInput, StationBarred, StationBarred},
		{"2 m repeaters, upper part", "146", "148", RepeaterInput, StationBarred, OverEdge},
		{"1.25 m repeaters", "222.15", "225", RepeaterInput, StationBarred, OverEdge},
		{"70 cm repeaters, lower part", "420", "431", RepeaterInput, OverEdge, StationBarred},
		{"70 cm repeaters, middle part", "433", "435", RepeaterInput, StationBarred, StationBarred},
		{"70 cm repeaters, upper part", "438", "450", RepeaterInput, StationBarred, OverEdge},
	}
	us, denver := region(t, "US"), at(39.74, -104.99)
	for _, tt := range tests {
		for _, e := range []Emission{FMWide(), FMNarrow(), DMRVoice(), DMR(), {"odd", 7_601, PhoneDigital}} {
			ask := func(f signal.Hertz) Verdict {
				return us.Transmit(Query{Center: f, Emission: e, Class: "technician", Station: tt.station, Site: denver})
			}
			half := (e.NecessaryBandwidth + 1) / 2
			low, high := mhz(t, tt.low)+half, mhz(t, tt.high)-half
			for _, f := range []signal.Hertz{low, high} {
				if v := ask(f); v.Outcome != Allowed || v.Margin != 0 {
					t.Errorf("%s, %s on %s: %v %v, margin %d", tt.name, e.Designator, f, v.Outcome, reasons(v), v.Margin)
				}
			}
			if v := ask(low - 1); v.Outcome != Denied || v.Objections[0].Reason != tt.below || v.Nearest != low {
				t.Errorf("%s, %s a hertz low: %v %v, nearest %s", tt.name, e.Designator, v.Outcome, reasons(v), v.Nearest)
			} else if o := v.Objections[0]; o.Reason != StationBarred && o.Below != 1 {
				t.Errorf("%s, %s a hertz low: %d Hz below; half a hertz counts as one", tt.name, e.Designator, o.Below)
			}
			if v := ask(high + 1); v.Outcome != Denied || v.Objections[0].Reason != tt.above || v.Nearest != high {
				t.Errorf("%s, %s a hertz high: %v %v, nearest %s", tt.name, e.Designator, v.Outcome, reasons(v), v.Nearest)
			}
		}
	}
}

// Each edge of each amateur row of five countries, a hertz to each side, for each default
// emission and each class of the row, against the oracle of oracle_test.go, which reads the
// same files by other means.
func TestEveryRowEdge(t *testing.T) {
	asked := map[string]int{}
	for _, code := range []string{"US", "CA", "GB", "DE", "AU"} {
		tables, oracle := region(t, code), newOracle(t, code)
		for _, row := range tables.Rows() {
			if row.Service != amateur || row.Place != "" {
				continue
			}
			classes := slices.Clone(row.Classes)
			if len(classes) == 0 {
				classes = tables.Classes()
			}
			for _, class := range append(classes, "") {
				for _, e := range []Emission{FMWide(), FMNarrow(), DMRVoice(), DMR()} {
					for _, edge := range []signal.Hertz{row.Low, row.High} {
						for _, side := range []signal.Hertz{-e.NecessaryBandwidth / 2, e.NecessaryBandwidth / 2} {
							for off := signal.Hertz(-1); off <= 1; off++ {
								q := Query{Center: edge + side + off, Emission: e, Class: class, Station: row.Station % Space}
								oracle.compare(t, tables, q)
								asked[code]++
							}
						}
					}
				}
			}
		}
	}
	if len(asked) != 5 || asked["AU"] < 700 {
		t.Errorf("too few edges were asked for: %v", fmt.Sprint(asked))
	}
}
