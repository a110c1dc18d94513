package rf

import (
	"errors"
	"fmt"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// The Egli column of the file is held to its last digit, and the distance from P.1546-6 to the ranges
// that rf.md 2.4 prints, from which the limits of use in EgliLoss come.
func TestEgliAgainstP1546(t *testing.T) {
	type span struct{ low, high float64 }
	printed := map[string]span{ // rf.md 2.4, in dB
		"146 near": {-3.4, 2.9}, "223.5 near": {-4.8, 1.6}, "445 near": {-8.2, -0.5},
		"146 far 10 %": {-7.9, 4.6}, "223.5 far 10 %": {-11.0, 1.6}, "445 far 10 %": {-16.0, -2.9},
		"far median": {-24, -4},
	}
	seen := map[string]span{}
	for _, l := range lines(t, "p1546-checks.csv") {
		mhz, km := l.number(t, "frequency_mhz"), l.number(t, "distance_km")
		ours, err := EgliLoss(signal.Hertz(mhz*1e6), km*1000, l.number(t, "base_height_m"), l.number(t, "mobile_height_m"))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(ours-l.number(t, "egli_loss_db")) > 0.006 {
			t.Errorf("%v: %.3f dB", l, ours)
		}
		kind, median := "", l["time_percent"] == "50"
		switch {
		case km <= 50 && median:
			kind = fmt.Sprint(mhz, " near")
		case km > 50 && !median:
			kind = fmt.Sprint(mhz, " far 10 %")
		case km > 50:
			kind = "far median"
		default:
			continue
		}
		off := ours - l.number(t, "basic_loss_db")
		s, ok := seen[kind]
		if !ok {
			s = span{off, off}
		}
		seen[kind] = span{math.Min(s.low, off), math.Max(s.high, off)}
	}
	for kind, want := range printed {
		got, tolerance := seen[kind], 0.1
		if kind == "far median" {
			tolerance = 0.5
		}
		t.Logf("%-16s Egli minus P.1546-6: printed %+.1f to %+.1f, ours %+.2f to %+.2f dB", kind, want.low, want.high, got.low, got.high)
		if math.Abs(got.low-want.low) > tolerance || math.Abs(got.high-want.high) > tolerance {
			t.Errorf("%s: %+v; printed %+v", kind, got, want)
		}
	}
}

func TestOutOfRange(t *testing.T) {
	tests := []struct {
		name string
		ask  func() error
		why  string
	}{
		{"Egli at 23 cm", func() error { _, err := EgliLoss(1_296_000_000, 10_000, 30, 1.5); return err }, "measured from 90 to 1000 MHz"},
		{"Egli on 6 m", func() error { _, err := EgliLoss(52_000_000, 10_000, 30, 1.5); return err }, "measured from 90 to 1000 MHz"},
		{"Egli across a continent", func() error { _, err := EgliLoss(146_000_000, 1e6, 30, 1.5); return err }, "compared up to 160 km"},
		{"Egli on the ground", func() error { _, err := EgliLoss(146_000_000, 10_000, 30, 0); return err }, "no height, infinite loss"},
		{"free space in the near field", func() error { _, err := FreeSpaceLoss(146_000_000, 0.1); return err }, "far field only"},
		{"free space at 0 m", func() error { _, err := FreeSpaceLoss(146_000_000, 0); return err }, "minus infinity"},
		{"free space of no number", func() error { _, err := FreeSpaceLoss(146_000_000, math.NaN()); return err }, "a NaN must not pass a comparison"},
		{"service radius on 70 cm", func() error { _, err := ServiceRadius(445_000_000, 30, 50); return err }, "no formula found (rf.md 2.5)"},
		{"ratio from 0 m", func() error { _, err := WantedToUnwanted(Emitter{50, 30}, Emitter{50, 30}, 0, 1); return err }, "infinite"},
		{"no server", func() error { _, err := ErlangB(1, 0); return err }, "nothing to be busy"},
		{"less than no traffic", func() error { _, err := ErlangB(-1, 1); return err }, "the recursion would go below 0"},
		{"all calls blocked", func() error { _, err := ErlangBTraffic(1, 1); return err }, "infinite traffic"},
		{"duty of 2", func() error { _, err := Expose("US", Transmission{146_940_000, 50, 2}); return err }, "a share of time"},
		{"exemption on 23 cm and up", func() error { _, err := ExemptWatts(2_400_000_000, 1); return err }, "those rows were not read"},
		{"near exemption on 2 m", func() error { _, err := ExemptNearWatts(146_000_000, 0.1); return err }, "1.1307(b)(3)(i)(B) starts at 300 MHz"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			err := tt.ask()
			var out *RangeError
			if !errors.As(err, &out) {
				t.Fatalf("%v; want a *RangeError (%s)", err, tt.why)
			}
			t.Log(err)
		})
	}
}

func TestLossProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := signal.Hertz(rapid.Int64Range(90_000_000, 1_000_000_000).Draw(t, "f"))
		d := rapid.Float64Range(10, 80_000).Draw(t, "m")
		h1, h2 := rapid.Float64Range(1, 3000).Draw(t, "h1"), rapid.Float64Range(1, 3000).Draw(t, "h2")
		loss, back := known(EgliLoss(f, d, h1, h2)), known(EgliLoss(f, d, h2, h1))
		if math.Abs(loss-back) > 1e-9 {
			t.Errorf("%v dB there, %v dB back", loss, back)
		}
		if free := known(FreeSpaceLoss(f, d)); !(loss >= free) {
			t.Errorf("%v dB; free space %v", loss, free)
		}
		if far := known(EgliLoss(f, 2*d, h1, h2)); !(far > loss) {
			t.Errorf("%v dB at twice the distance, %v at once", far, loss)
		}
		dB := rapid.Float64Range(-60, 60).Draw(t, "dBm")
		if back := DBmOf(WattsOf(dB)); math.Abs(back-dB) > 1e-9 {
			t.Errorf("%v dBm there and %v back", dB, back)
		}
		if back := ERPOf(EIRPOf(h1)); math.Abs(back-h1) > 1e-9*h1 {
			t.Errorf("%v W there and %v back", h1, back)
		}
	})
}

// A dipole has 0 dBd and 2.15 dBi; 12 calls an hour of 30 s are a tenth of an erlang.
func TestUnits(t *testing.T) {
	for _, tt := range []struct {
		name      string
		got, want float64
	}{
		{"dBd", DBdOf(DipoleDBi), 0}, {"dBi", DBiOf(0), 2.15}, {"dBm", DBmOf(1), 30}, {"W", WattsOf(37), 5.0118723},
		{"erlang", OfferedErlangs(12, 30*time.Second), 0.1}, {"EIRP", EIRPOf(50), 82.03},
	} {
		if math.Abs(tt.got-tt.want) > 0.001 {
			t.Errorf("%s: %v; want %v", tt.name, tt.got, tt.want)
		}
	}
	if !math.IsInf(DBmOf(0), -1) || !math.IsInf(DBmOf(-1), -1) {
		t.Error("no power is not minus infinity")
	}
}

// A ratio between two stations is the difference of two losses, wherever Egli's is above free space.
func TestWantedToUnwantedIsEgli(t *testing.T) {
	wanted, unwanted := Emitter{50, 60}, Emitter{100, 300}
	got, inside, err := EdgeRatio(wanted, unwanted, 30_000, 130_000)
	if err != nil || inside {
		t.Fatal(inside, err)
	}
	near := DBmOf(50) - known(EgliLoss(146_000_000, 30_000, 60, 1.5))
	far := DBmOf(100) - known(EgliLoss(146_000_000, 100_000, 300, 1.5))
	if math.Abs(got-(near-far)) > 1e-9 {
		t.Errorf("%v dB; by two losses %v", got, near-far)
	}
	if _, inside, err := EdgeRatio(wanted, unwanted, 30_000, 30_000); !inside || err != nil {
		t.Error("a station at the edge of the service is not inside of it")
	}
}

func TestErlangB(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 40).Draw(t, "servers")
		a := rapid.Float64Range(0, 60).Draw(t, "erlang")
		blocking := known(ErlangB(a, n))
		if !(blocking >= 0 && blocking < 1) {
			t.Fatalf("%v", blocking)
		}
		if n == 1 && math.Abs(blocking-a/(1+a)) > 1e-15 { // the closed form for one server
			t.Errorf("%v; want %v", blocking, a/(1+a))
		}
		if more := known(ErlangB(a, n+1)); more > blocking {
			t.Errorf("%v with %d servers, %v with one more", blocking, n, more)
		}
		share := rapid.Float64Range(1e-6, 0.99).Draw(t, "share")
		if back := known(ErlangB(known(ErlangBTraffic(n, share)), n)); math.Abs(back-share) > 1e-9 {
			t.Errorf("%v there and %v back", share, back)
		}
	})
	// Two slots are no pool of two (rf.md 8): half an erlang on each blocks a third of the calls, one on
	// a pool of two a fifth.
	if slot, pool := known(ErlangB(0.5, 1)), known(ErlangB(1, 2)); math.Abs(slot-1.0/3) > 1e-12 || math.Abs(pool-0.2) > 1e-12 {
		t.Errorf("slot %v, pool %v", slot, pool)
	}
}
