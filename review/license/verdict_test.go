package license

import (
	"math"
	"slices"
	"testing"

	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

// What the first objection says, and how a row from memory is treated.
func TestReasons(t *testing.T) {
	tests := []transmitCase{
		{"Morse segment", "US", "144.050", "16K0F3E", "technician", Member, 0, 0, nil, Denied, []Reason{EmissionBarred}, 0, "47 CFR 97.305(a): 144.0-144.1 CW only"},
		{"sideband of FM in it", "US", "144.105", "16K0F3E", "technician", Member, 0, 0, nil, Denied, []Reason{EmissionBarred}, 0, "47 CFR 97.307(b)"},
		{"Morse in it", "US", "144.050", "150HA1A", "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.305(a)"},
		{"data of 20 kHz on 2 m", "US", "145.01", "20K0F2D", "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.307(f)(5)"},
		{"data wider than 20 kHz on 2 m", "US", "145.01", "20K1F2D", "technician", Member, 0, 0, nil, Denied, []Reason{TooWide}, 0, "47 CFR 97.307(f)(5)"},
		{"data of 100 kHz on 70 cm", "US", "440.5", "100KF1D", "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.307(f)(6)"},
		{"wide FM below 29 MHz", "US", "28.6", "16K0F3E", "general", Member, 0, 0, nil, Denied, []Reason{TooWide}, 0, "47 CFR 97.307(f)(1): index at most 1"},
		{"narrow FM below 29 MHz", "US", "28.6", "11K0F3E", "general", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.307(f)(1): 2.5 / 3 kHz is below 1"},
		{"Technician sideband on 28.4", "US", "28.4", "2K80J3E", "technician", Member, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.301(e)"},
		{"Technician FM on 28.4", "US", "28.4", "11K0F3E", "technician", Member, 0, 0, nil, Denied, []Reason{EmissionBarred}, 0, "47 CFR 97.301(e), 97.305"},
		{"CA FM of 16 kHz on 10 m", "CA", "29.6", "16K0F3E", "advanced", Member, 0, 0, nil, Allowed, nil, 0, "RBR-4: 20 kHz"},
		{"CA Basic on 10 m", "CA", "29.6", "16K0F3E", "basic", Member, 0, 0, nil, Denied, []Reason{ClassBarred}, 0, "RBR-4 Schedule I"},
		{"CA Basic through a repeater", "CA", "144.61", "16K0F3E", "basic", RepeaterInput, 0, 0, nil, Allowed, nil, 0, "RIC-3 bars setting one up, not using it"},
		{"CA Basic sets up a repeater", "CA", "146.94", "16K0F3E", "basic", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "RIC-3 s.1.4"},
		{"CA a repeater of somebody", "CA", "146.94", "16K0F3E", "", RepeaterOutput, 0, 0, nil, Allowed, nil, 0, "RIC-3 s.1.4: an Advanced holder may"},
		{"CA Basic with Honours on 2 m", "CA", "146.94", "16K0F3E", "basic-honours", Member, 0, 0, nil, Allowed, nil, 0, "Honours adds to Basic"},
		{"DE 10 m is too narrow for FM", "DE", "29.6", "11K0F3E", "a", Member, 0, 0, nil, Denied, []Reason{TooWide}, 0, "AFuV Anlage 1: 7 kHz"},
		{"DE class N on 6 m", "DE", "51.5", "11K0F3E", "n", Member, 0, 0, nil, Denied, []Reason{ClassBarred}, 0, "AFuV Anlage 1"},
		{"DE unattended station in 1247-1263", "DE", "1250.0", "11K0F3E", "", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "AFuV Anlage 1 part B note 11"},
		{"DE unattended station below 30 MHz", "DE", "29.6", "6K00A3E", "", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "AFuV section 13: from 30 MHz"},
		{"DE 50.3 and 50.5: touching rows join", "DE", "50.4", "12K0F3E", "a", Member, 0, 0, nil, Allowed, nil, 0, "AFuV Anlage 1"},
		{"GB 146-147 wants a Notice of Variation", "GB", "146.5", "7K60FXE", "full", Member, 0, 0, nil, Doubtful, []Reason{NeedsPermit}, 0, "RSGB sheet 146-147"},
		{"GB Foundation at the top of 2 m", "GB", "145.995", "16K0F3E", "foundation", Member, 0, 0, nil, Denied, []Reason{OverEdge}, 3_000, "BR68/F: 146; nobody has FM above"},
		{"GB 23 cm is from memory", "GB", "1297.0", "16K0F3E", "foundation", Member, 0, 0, nil, Doubtful, []Reason{ClassBarred}, 0, "RSGB 1.3 GHz plan; classes from memory"},
		{"GB 70 MHz edge is from memory", "GB", "70.496", "16K0F3E", "full", Member, 0, 0, nil, Doubtful, []Reason{OverEdge}, 4_000, "BR68/F; from memory"},
		{"NZ off band is no memory", "NZ", "164.52", "16K0F3E", "general", Member, 0, 0, nil, Denied, []Reason{OutsideBands}, 0, "the edges equal those of ITU Region 3"},
		{"AU Advanced over the edge that others prove", "AU", "147.995", "16K0F3E", "advanced", Member, 0, 0, nil, Denied, []Reason{OverEdge}, 3_000, "the edge was read for Standard; the class is from memory"},
		{"AU Advanced off band", "AU", "164.52", "16K0F3E", "advanced", Member, 0, 0, nil, Denied, []Reason{OutsideBands}, 0, "the edges were read for Standard"},
		{"aeronautical", "NZ", "121.5", "16K0F3E", "general", Member, 0, 0, nil, Denied, []Reason{OutsideBands, OtherService}, 0, "RR Article 5"},
		{"distress beacons", "US", "406.05", "16K0F3E", "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands, OtherService}, 0, "RR No. 5.267"},
		{"a link on 6 m", "US", "53.5", "16K0F3E", "technician", Auxiliary, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.201(b): 2 m and shorter"},
		{"automatic beacon", "US", "144.28", "150HA1A", "technician", Beacon, 0, 0, nil, Allowed, nil, 0, "47 CFR 97.203(d)"},
		{"automatic beacon elsewhere", "US", "144.35", "150HA1A", "technician", Beacon, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.203(d)"},
		{"automatic beacon with 101 W", "US", "144.28", "150HA1A", "technician", Beacon, 101_000, 0, nil, Denied, []Reason{PowerOver}, 0, "47 CFR 97.203(c)"},
		{"speech and data where speech is barred", "US", "219.5", "7K60FXW", "technician", Member, 0, 0, nil, Denied, []Reason{EmissionBarred}, 0, "47 CFR 97.305(c)(4)(iv): both must be allowed"},
		{"FCC Region 1 repeater on 145.6", "US-R1", "145.6", "16K0F3E", "", RepeaterOutput, 0, 0, nil, Denied, []Reason{StationBarred}, 0, "47 CFR 97.205(b) holds everywhere"},
		{"FCC Region 1 ends at 146", "US-R1", "146.5", "16K0F3E", "extra", Member, 0, 0, nil, Denied, []Reason{OutsideBands}, 0, "47 CFR 97.301(a), Region 1 column"},
	}
	seen := map[string]bool{}
	for _, tt := range tests {
		if seen[tt.name] {
			t.Errorf("two cases are called %q", tt.name)
		}
		seen[tt.name] = true
		t.Run(tt.name, tt.run)
	}
}

// Powers are compared with limits of like kind. Output is what the transmitter gives.
func TestPower(t *testing.T) {
	const w = signal.Power(1_000)
	tests := []struct {
		region, mhz, emission string
		class                 Class
		output, erp           signal.Power
		want                  Outcome
		why                   string
	}{
		{"US", "146.52", "16K0F3E", "technician", 1_500 * w, 0, Allowed, "97.313(b): 1500 W PEP"},
		{"US", "146.52", "16K0F3E", "technician", 1_500*w + 1, 0, Denied, "a milliwatt over it; FM has one power at every instant"},
		{"US", "146.52", "16K0F3E", "technician", 100 * w, 9_999 * w, Allowed, "an ERP is no PEP, and is not compared"},
		{"US", "224.0", "16K0F3E", "novice", 26 * w, 0, Denied, "97.313(d): Novice 25 W PEP"},
		{"CA", "146.52", "16K0F3E", "basic", 191 * w, 0, Denied, "RBR-4 10.1: 190 W carrier, and FM has its carrier power always"},
		{"CA", "146.52", "2K80J3E", "basic", 191 * w, 0, Doubtful, "a PEP of sideband against a carrier limit: unlike"},
		{"AU", "146.5", "16K0F3E", "standard", 31 * w, 0, Denied, "30 W mean, and FM sends without pause"},
		{"AU", "146.5", "7K60FXE", "standard", 31 * w, 0, Doubtful, "30 W mean, and a time slot is half of the time"},
		{"DE", "70.18", "11K0F3E", "a", 30 * w, 0, Doubtful, "25 W ERP; without an antenna it can only warn"},
		{"DE", "70.18", "11K0F3E", "a", 30 * w, 20 * w, Allowed, "25 W ERP, and the ERP is known"},
		{"DE", "70.18", "11K0F3E", "a", 20 * w, 26 * w, Denied, "25 W ERP"},
		{"DE", "433.5", "11K0F3E", "n", 10 * w, 0, Doubtful, "6.14 W ERP"},
		{"DE", "1250.0", "11K0F3E", "a", 0, 3 * w, Allowed, "5 W EIRP is 3.05 W ERP"},
		{"DE", "1250.0", "11K0F3E", "a", 0, 3_100, Denied, "5 W EIRP is 3.05 W ERP"},
		{"DE", "1245.0", "11K0F3E", "a", 100 * w, 0, Allowed, "outside of 1247-1263 750 W PEP"},
		{"GB", "145.5", "11K0F3E", "full", 1_001 * w, 0, Doubtful, "what the 1000 W measure was not read"},
		{"GB", "51.0", "11K0F3E", "full", 500 * w, 0, Doubtful, "half of it in 51-52, where 100 W is from memory"},
	}
	for _, tt := range tests {
		v := region(t, tt.region).Transmit(Query{Center: mhz(t, tt.mhz), Emission: emission(t, tt.emission), Class: tt.class, Output: tt.output, ERP: tt.erp})
		if v.Outcome != tt.want || (v.Outcome != Allowed && !slices.Equal(reasons(v), []Reason{PowerOver})) {
			t.Errorf("%s %s %s %v: %v %v; want %v: %s", tt.region, tt.mhz, tt.emission, tt.output, v.Outcome, reasons(v), tt.want, tt.why)
		}
	}
}

// ERP = EIRP - 2.15 dB.
func TestDipole(t *testing.T) {
	if want := math.Pow(10, 0.215); math.Abs(dipole-want) > 1e-9 {
		t.Errorf("dipole is %v, want %v", dipole, want)
	}
}

// A right that rests on memory is shown as such.
func TestFromMemory(t *testing.T) {
	tests := []struct {
		region, mhz string
		class       Class
		want        bool
	}{
		{"US", "146.52", "technician", false}, {"AU", "146.5", "advanced", true}, {"AU", "146.5", "standard", false}, {"AU", "146.5", "", false},
		{"JP", "433.3", "4th", true}, {"JP", "433.3", "1st", false},
	}
	for _, tt := range tests {
		v := region(t, tt.region).Transmit(Query{Center: mhz(t, tt.mhz), Emission: FMWide(), Class: tt.class})
		if v.Outcome != Allowed || v.FromMemory != tt.want {
			t.Errorf("%s %s %s: %v, from memory %v; want %v", tt.region, tt.mhz, tt.class, v.Outcome, v.FromMemory, tt.want)
		}
	}
}

// Odd queries end in a verdict like all others.
func TestTransmitTakesAnything(t *testing.T) {
	us := region(t, "US")
	for _, q := range []Query{
		{}, {Center: -1}, {Center: math.MaxInt64, Emission: FMWide()}, {Center: math.MinInt64, Emission: FMWide()},
		{Center: 146_520_000, Emission: Emission{NecessaryBandwidth: math.MaxInt64}},
		{Center: 146_520_000, Emission: Emission{NecessaryBandwidth: -1}},
	} {
		if v := us.Transmit(q); v.Outcome != Denied || v.Objections[0].Reason != OutsideBands {
			t.Errorf("%+v: %v; want it outside every band", q, v.Outcome)
		}
	}
	if v := us.Transmit(Query{Center: 146_520_000, Emission: Emission{NecessaryBandwidth: 16_000}, Class: "extra"}); v.Outcome != Denied {
		t.Errorf("an emission that nobody has named is %v; pulses are not allowed there", v.Outcome)
	}
	rapid.Check(t, func(r *rapid.T) {
		q := Query{
			Center: signal.Hertz(rapid.Int64().Draw(r, "center")), Class: Class(rapid.String().Draw(r, "class")),
			Emission: Emission{rapid.String().Draw(r, "designator"), signal.Hertz(rapid.Int64().Draw(r, "width")), Kind(rapid.Uint16().Draw(r, "kind"))},
			Station:  Station(rapid.Uint8().Draw(r, "station")), Output: signal.Power(rapid.Int64().Draw(r, "output")), ERP: signal.Power(rapid.Int64().Draw(r, "erp")),
			Site: &Site{At: signal.Position{Lat: signal.MicroDegrees(rapid.Int64().Draw(r, "lat")), Lon: signal.MicroDegrees(rapid.Int64().Draw(r, "lon"))}},
		}
		v := us.Transmit(q)
		if (v.Outcome == Allowed) != (len(v.Objections) == 0) {
			t.Fatalf("%+v: %v with %d objections", q, v.Outcome, len(v.Objections))
		}
	})
}
