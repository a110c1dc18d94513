package license

import (
	"math"
	"slices"
	"testing"

	"passband.example/plandiff/signal"
)

// region returns the tables of a region that is known to exist.
func region(t testing.TB, code string) *Tables {
	t.Helper()
	tables, err := For(code)
	if err != nil {
		t.Fatal(err)
	}
	return tables
}

func mhz(t testing.TB, text string) signal.Hertz {
	t.Helper()
	f, err := signal.ParseMegahertz(text)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// emission reads a designator that is known to be good.
func emission(t testing.TB, text string) Emission {
	t.Helper()
	e, err := ParseEmission(text)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func reasons(v Verdict) []Reason {
	var all []Reason
	for _, o := range v.Objections {
		all = append(all, o.Reason)
	}
	return all
}

// at returns a site.
func at(lat, lon float64) *Site {
	return &Site{At: signal.Position{Lat: signal.MicroDegrees(math.Round(lat * 1e6)), Lon: signal.MicroDegrees(math.Round(lon * 1e6))}}
}

// A case asks about one transmission, as a table of cases holds it.
type transmitCase struct {
	name, region, mhz string
	emission          string
	class             Class
	station           Station
	output, erp       signal.Power // mW
	site              *Site
	want              Outcome
	reasons           []Reason
	above             signal.Hertz
	source            string
}

func (c transmitCase) run(t *testing.T) {
	v := region(t, c.region).Transmit(Query{
		Center: mhz(t, c.mhz), Emission: emission(t, c.emission), Class: c.class, Station: c.station, Output: c.output, ERP: c.erp, Site: c.site,
	})
	if v.Outcome != c.want || !slices.Equal(reasons(v), c.reasons) {
		t.Errorf("%v %v; want %v %v (%s)", v.Outcome, reasons(v), c.want, c.reasons, c.source)
	}
	if c.above != 0 && v.Objections[0].Above != c.above {
		t.Errorf("%d Hz above; want %d (%s)", v.Objections[0].Above, c.above, c.source)
	}
}

// The cases that the sections and the class of licensee decide, each with the text it rests
// on. The number is that of the case in a list of twenty; those that are not about one
// transmission have tests of their own below.
func TestCases(t *testing.T) {
	const wide, dmr = "16K0F3E", "7K60FXE"
	denver := at(39.74, -104.99)
	tests := []transmitCase{
		{"1 over the top of 2 m", "US", "147.995", wide, "technician", Member, 0, 0, nil, Denied, []Reason{OverEdge}, 3_000, "47 CFR 97.301(a), 97.307(b)"},
		{"1 a channel that ends on the edge", "US", "147.99375", "12K5F3E", "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.301(a), 97.307(b)"},
		{"2 half of it above 145.5", "US", "145.500", wide, "", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b), 97.307(b)"},
		{"2 below 145.5", "US", "145.490", wide, "", RepeaterOutput, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.205(b), 97.307(b)"},
		{"3 output", "US", "146.2", wide, "", RepeaterOutput, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.205(b)"},
		{"3 input is barred as well", "US", "145.6", wide, "technician", RepeaterInput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b)"},
		{"4 north of Line A", "US", "426.25", wide, "technician", Member, 0, 0, at(47.61, -122.33), Denied, []Reason{PlaceBarred}, 0, "47 CFR 97.303(m)(1); Seattle"},
		{"4 no site", "US", "426.25", wide, "technician", Member, 0, 0, nil, Doubtful, []Reason{PlaceBarred}, 0, "47 CFR 97.303(m)(1)"},
		{"4 south of Line A", "US", "426.25", wide, "technician", Member, 0, 0, denver, Allowed, nil, 0, "47 CFR 97.303(m)(1)"},
		{"5 output in DE", "DE", "438.650", wide, "", RepeaterOutput, 0, 0, nil, Allowed, nil, 0, "AFuV Anlage 1"},
		{"5 input in DE", "DE", "431.050", wide, "e", RepeaterInput, 0, 0, nil, Allowed, nil, 0, "AFuV Anlage 1"},
		{"5 input in US", "US", "431.050", wide, "technician", RepeaterInput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b): 431-433"},
		{"6 the wrong input, no site", "GB", "431.450", wide, "full", RepeaterInput, 0, 0, nil, Doubtful, []Reason{PlaceBarred}, 0, "license note 431-432: not within 100 km of Charing Cross"},
		{"6 the wrong input, in London", "GB", "431.450", wide, "full", RepeaterInput, 0, 0, at(51.5, -0.1), Denied, []Reason{PlaceBarred}, 0, "license note 431-432: not within 100 km of Charing Cross"},
		{"7 in DE", "DE", "446.00625", "11K0F3E", "a", Member, 0, 0, nil, Denied, []Reason{OutsideBands}, 0, "AFuV Anlage 1: ends at 440"},
		{"7 in US", "US", "446.00625", "11K0F3E", "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.301(a)"},
		{"8 GMRS 462.5625", "US", "462.5625", "11K0F3E", "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands}, 0, "47 CFR 97.301(a), 95.1761"},
		{"8 GMRS 467.550", "US", "467.550", wide, "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands}, 0, "47 CFR 97.301(a), 95.1761"},
		{"9 voice on 219.5", "US", "219.5", wide, "extra", Member, 0, 0, nil, Denied, []Reason{EmissionBarred}, 0, "47 CFR 97.305(c)(4)(iv)"},
		{"9 land mobile", "US", "221.0", wide, "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands, OtherService}, 0, "47 CFR 97.301(a), 90.715"},
		{"9 output below 222.15", "US", "222.14", wide, "", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b)"},
		{"10 Technician on 10 m", "US", "29.620", wide, "technician", RepeaterInput, 0, 0, nil, Denied, []Reason{ClassBarred}, 0, "47 CFR 97.301(e): ends at 28.5"},
		{"10 General on 10 m", "US", "29.620", wide, "general", RepeaterInput, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.301(d)"},
		{"12 no 420-430 in Canada", "CA", "425.000", wide, "advanced", Member, 0, 0, nil, Denied, []Reason{OutsideBands, NotAmateur}, 0, "RBR-4 Schedule I: 430-450"},
		{"14 Standard on 51.5", "AU", "51.5", wide, "standard", Member, 0, 0, nil, Denied, []Reason{ClassBarred}, 0, "class license 2023: 52-54"},
		{"14 Advanced on 51.5", "AU", "51.5", wide, "advanced", Member, 0, 0, nil, Allowed, nil, 0, "spectrum plan 2021, 50-52"},
		{"15 input of 51.9 less 1 MHz", "US", "50.9", wide, "technician", RepeaterInput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b)"},
		{"16 remote base on 145.85", "US", "145.85", wide, "technician", Auxiliary, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.201(b)"},
		{"16 remote base on 145.65", "US", "145.65", wide, "technician", Auxiliary, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.201(b)"},
		{"17 main channel 145.000", "JP", "145.000", dmr, "1st", Member, 0, 0, nil, Denied, []Reason{NotAmateur}, 0, "Operation Rules art. 258-2"},
		{"17 main channel 433.000", "JP", "433.000", dmr, "4th", Member, 0, 0, nil, Denied, []Reason{NotAmateur}, 0, "Operation Rules art. 258-2"},
		{"17 the same in FM", "JP", "433.000", wide, "4th", Member, 0, 0, nil, Allowed, nil, 0, "Operation Rules art. 258-2"},
		{"19 ends on 928", "US", "927.9875", "25K0F3E", "technician", Member, 0, 0, denver.shifted(2, 0), Allowed, nil, 0, "47 CFR 97.301(a)"},
		{"19 inside the box", "US", "927.5", wide, "technician", Member, 0, 0, at(33, -106), Denied, []Reason{PlaceBarred}, 0, "47 CFR 97.303(n)(2)"},
		{"20 weather channel", "US", "162.550", wide, "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands, OtherService}, 0, "47 CFR 97.301(a); weather service page"},
		{"13 10 W into 5 dBi", "DE", "433.5", wide, "n", Member, 10_000, radiated(10_000, 5), nil, Denied, []Reason{PowerOver}, 0, "AFuV Anlage 1 (2024): 10 W EIRP"},
		{"13 5 W into 2.15 dBi", "DE", "433.5", wide, "n", Member, 5_000, radiated(5_000, 2.15), nil, Allowed, nil, 0, "AFuV Anlage 1 (2024): 8.2 W EIRP"},
	}
	for _, tt := range tests {
		t.Run(tt.name, tt.run)
	}
}

// radiated is the ERP of an output into an antenna with a gain in dBi.
func radiated(output signal.Power, dBi float64) signal.Power {
	return signal.Power(math.Round(float64(output) * math.Pow(10, (dBi-2.15)/10)))
}

// shifted moves a site by degrees.
func (s *Site) shifted(lat, lon float64) *Site {
	moved := *s
	moved.At.Lat += signal.MicroDegrees(lat * 1e6)
	moved.At.Lon += signal.MicroDegrees(lon * 1e6)
	return &moved
}

// What else the twenty cases say: splits, calling channels, other services, content, margins.
func TestCasesBeyondTransmit(t *testing.T) {
	us, de, gb := region(t, "US"), region(t, "DE"), region(t, "GB")

	fit := func(name string, tables *Tables, output string, split signal.Split, want SplitFit, usual ...signal.Split) {
		t.Helper()
		got, rows := tables.FitSplit(mhz(t, output), split)
		var splits []signal.Split
		for _, row := range rows {
			splits = append(splits, row.Split)
		}
		if got != want || !slices.Equal(splits, usual) {
			t.Errorf("case %s: %v %v; want %v %v", name, got, splits, want, usual)
		}
	}
	fit("5: national plan 2009", de, "438.650", -7_600_000, SplitUsual, -7_600_000)
	fit("5: nobody in the US pairs so", us, "438.650", -7_600_000, SplitUnknown)
	fit("6: RSGB plan 2025", gb, "433.050", -1_600_000, SplitReversed, 1_600_000)
	fit("18: history of the pairs", us, "147.000", -600_000, SplitUsual, -600_000)
	fit("18: national plan", us, "147.000", 600_000, SplitUsual, 600_000)

	if calling := us.Calling(mhz(t, "446.00625"), 11_000); len(calling) != 1 || calling[0].Center != 446_000_000 {
		t.Errorf("case 7: 6.25 kHz from the calling channel 446.000, got %v", calling)
	}
	service := func(name string, tables *Tables, f, want string) {
		t.Helper()
		var names []string
		for _, row := range tables.Services(mhz(t, f), 11_000) {
			names = append(names, row.Name)
		}
		if !slices.Contains(names, want) {
			t.Errorf("case %s: %v; want %s among them", name, names, want)
		}
	}
	service("7: ECC/DEC/(15)05", de, "446.00625", "PMR446 channel 1")
	service("8: 47 CFR 95.1763", us, "462.5625", "GMRS 462 MHz interstitial 1")
	service("8: 47 CFR 95.1763", us, "467.550", "GMRS repeater pair 15")
	service("20: weather service page", us, "162.550", "NOAA weather radio 162.55")
	if rows := us.Services(mhz(t, "446.00625"), 11_000); len(rows) != 0 {
		t.Errorf("case 7: PMR446 is no service of the US, got %v", rows[0].Name)
	}

	for _, tables := range []*Tables{us, de} { // case 11: 47 CFR 97.113(a)(4); AFuV section 16 (8)
		if row := tables.Content(ObscuredMeaning); row == nil || row.Allowed || row.Confidence != Read {
			t.Errorf("case 11 in %s: %v; want a prohibition that was read", tables.Code, row)
		}
	}
	if classes := us.Transmit(Query{Center: 29_620_000, Emission: FMWide(), Class: "technician"}).Objections[0].Classes; !slices.Equal(classes, []Class{"general", "advanced", "extra"}) {
		t.Errorf("case 10: %v may use 29.620; want General and up (47 CFR 97.301(d))", classes)
	}
	if v := us.Transmit(Query{Center: 147_993_750, Emission: emission(t, "12K5F3E"), Class: "technician"}); v.Margin != 0 || len(v.Rows) == 0 {
		t.Errorf("case 1: margin %d; the channel ends on the edge", v.Margin)
	}
}
