package license

import (
	"slices"
	"testing"

	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

func TestAt(t *testing.T) {
	l := region(t, "US").At(146_940_000)
	if len(l.Rows) != 2 || l.Rows[0].Low != 144_100_000 || len(l.Segments) != 1 || l.Segments[0].Use != "FM repeater output" || len(l.Splits) != 1 || l.Splits[0].Split != -600_000 || len(l.Services) != 0 {
		t.Errorf("146.940: %+v", l)
	}
	edge := region(t, "US").At(148_000_000) // on an edge, which is inside
	if len(edge.Rows) != 2 || len(edge.Segments) != 0 {
		t.Errorf("148.000: %d rows, %d segments", len(edge.Rows), len(edge.Segments))
	}
	weather := region(t, "US").At(162_550_000)
	if len(weather.Rows) != 1 || weather.Rows[0].Service != "weather broadcast" || len(weather.Services) != 1 {
		t.Errorf("162.550: %+v", weather)
	}
	law := region(t, "JP").At(145_000_000)
	if !slices.ContainsFunc(law.Segments, func(s *Segment) bool { return s.Force == Law && s.Center == 145_000_000 }) {
		t.Errorf("145.000 in Japan: the main channel is law: %+v", law.Segments)
	}
}

// National before regional, the narrowest first, former editions last.
func TestSegmentsInOrder(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		code := rapid.SampledFrom([]string{"US", "GB", "DE", "CA", "JP", "FR", "ITU-R1"}).Draw(r, "region")
		f := signal.Hertz(rapid.Int64Range(28_000_000, 450_000_000).Draw(r, "f"))
		found := region(t, code).Segments(f)
		for i, s := range found {
			if f < s.Low || f > s.High {
				t.Fatalf("%s %s: %s to %s", code, f, s.Low, s.High)
			}
			if i == 0 {
				continue
			}
			p := found[i-1]
			if p.rank > s.rank || p.rank == s.rank && p.High-p.Low > s.High-s.Low || p.Superseded && !s.Superseded && p.Plan != s.Plan {
				t.Fatalf("%s %s: %q before %q", code, f, p.Use, s.Use)
			}
		}
	})
}

func TestCallingChannels(t *testing.T) {
	tests := []struct {
		region, mhz string
		width       signal.Hertz
		want        string // the center, or nothing
		why         string
	}{
		{"US", "146.52", 16_000, "146.520", "the calling channel itself"},
		{"US", "146.535", 16_000, "146.520", "15 kHz off, and 16 kHz wide: it reaches in by 500 Hz"},
		{"US", "146.55", 16_000, "", "30 kHz off"},
		{"DE", "145.5", 11_000, "145.500", "IARU Region 1"},
		{"GB", "433.7", 11_000, "433.700", "kept for emergencies"},
		{"JP", "433.3", 7_600, "433.300", "digital calling"},
		{"US", "144.39", 16_000, "", "a packet channel is no calling channel"},
	}
	for _, tt := range tests {
		got := ""
		if found := region(t, tt.region).Calling(mhz(t, tt.mhz), tt.width); len(found) > 0 {
			got = found[0].Center.String()
		}
		if got != tt.want {
			t.Errorf("%s %s: %q, want %q: %s", tt.region, tt.mhz, got, tt.want, tt.why)
		}
	}
}

func TestFitSplit(t *testing.T) {
	tests := []struct {
		region, output string
		split          signal.Split
		want           SplitFit
		why            string
	}{
		{"US", "444.325", 5_000_000, SplitUsual, "the national plan, below 445"},
		{"US", "444.325", -5_000_000, SplitReversed, "the national plan, below 445"},
		{"US", "447.5", -5_000_000, SplitUsual, "above 447"},
		{"US", "146.94", -600_000, SplitUsual, "NCVEC T2A01"},
		{"US", "146.94", 600_000, SplitReversed, "NCVEC T2A01"},
		{"US", "146.94", -1_000_000, SplitUnusual, "neither"},
		{"US", "146.45", -600_000, SplitUnknown, "simplex there"},
		{"DE", "145.6", -600_000, SplitUsual, "IARU Region 1"},
		{"DE", "439.9", -9_400_000, SplitUsual, "national plan 2009"},
		{"FR", "430.100", 1_600_000, SplitUsual, "France has splits, though no table"},
		{"IT", "430.100", 1_600_000, SplitUnknown, "Italy has those of Region 1 alone"},
		{"IT", "434.700", -1_600_000, SplitUsual, "Region 1"},
		{"GB", "430.8125", 7_600_000, SplitUsual, "RU65, on the edge of its block"},
	}
	for _, tt := range tests {
		if got, _ := region(t, tt.region).FitSplit(mhz(t, tt.output), tt.split); got != tt.want {
			t.Errorf("%s %s %v: %v, want %v: %s", tt.region, tt.output, tt.split, got, tt.want, tt.why)
		}
	}
}

// Channels that only touch do not overlap; nearer than half of both widths they do.
func TestServicesToTheHertz(t *testing.T) {
	de := region(t, "DE")
	const channel1 = signal.Hertz(446_006_250) // PMR446, 12.5 kHz wide
	for _, width := range []signal.Hertz{12_500, 11_000, 7_601} {
		distance := (12_500 + width + 1) / 2
		if rows := de.Services(channel1-distance, width); len(rows) != 0 {
			t.Errorf("%d Hz below, %d wide: %v", distance, width, rows[0].Name)
		}
		if rows := de.Services(channel1-distance+1, width); len(rows) != 1 {
			t.Errorf("%d Hz below, %d wide: %d services", distance-1, width, len(rows))
		}
	}
}

func TestContent(t *testing.T) {
	tests := []struct {
		region, owner string
		confidence    Confidence
	}{
		{"US", "US", Read}, {"PR", "US", Read}, {"GU", "US-R3", Read}, {"DE", "DE", Read}, {"GB", "GB", Part}, {"FR", everywhere, Memory}, {"NZ", "NZ", Memory},
	}
	for _, tt := range tests {
		row := region(t, tt.region).Content(ObscuredMeaning)
		if row == nil || row.Allowed || row.Jurisdiction != tt.owner || row.Confidence != tt.confidence {
			t.Errorf("%s: %+v; want that of %s, %v", tt.region, row, tt.owner, tt.confidence)
		}
	}
	if row := region(t, "US").Content(99); row != nil {
		t.Errorf("an unknown practice has %+v", row)
	}
}

// The index finds what a walk over all items finds.
func TestIndexAgainstAWalk(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(0, 8).Draw(r, "n")
		var rows []*Row
		for range n {
			low := signal.Hertz(rapid.Int64Range(1, 20).Draw(r, "low"))
			rows = append(rows, &Row{Low: low, High: low + signal.Hertz(rapid.Int64Range(1, 12).Draw(r, "width"))})
		}
		x := newIndex(rows)
		q := reachOf(signal.Hertz(rapid.Int64Range(0, 40).Draw(r, "f")), signal.Hertz(rapid.Int64Range(1, 12).Draw(r, "b")))
		found := x.overlapping(q)
		want := 0
		for _, row := range rows {
			if halves(2*row.Low) < q.high && q.low < halves(2*row.High) {
				want++
				if !slices.Contains(found, row) {
					t.Fatalf("%v lacks %v to %v", q, row.Low, row.High)
				}
			}
		}
		if len(found) != want || !slices.IsSortedFunc(found, func(a, b *Row) int { return int(a.Low - b.Low) }) {
			t.Fatalf("%v: %d rows, want %d, by lower edge", q, len(found), want)
		}
	})
}

// No channel of another service lies where a table gives amateurs a right, so that a
// transmission on one is never lawful by its band; an amateur channel that is only kept
// clear by custom may.
func TestServicesAreOutsideTheBands(t *testing.T) {
	all, err := Regions()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range all {
		tables := region(t, r.Code)
		for _, c := range tables.services.items {
			v := tables.Transmit(Query{Center: c.at, Emission: FMNarrow()})
			if c.Force == Law && v.Outcome == Allowed {
				t.Errorf("%s: %s on %s is in an amateur band", r.Code, c.Name, c.at)
			}
		}
	}
}
