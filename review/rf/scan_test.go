package rf

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// busy returns n DMR channels of which the first few are always busy with others.
func busy(n, others int) []ScanChannel {
	channels := make([]ScanChannel, n)
	for i := range channels {
		channels[i] = ScanChannel{DMR: true}
		if i < others {
			channels[i].Others = 1
		}
	}
	return channels
}

// The worked examples of rf.md 7.
func TestScan(t *testing.T) {
	tests := []struct {
		name     string
		channels []ScanChannel
		sweep    time.Duration
		why      string
	}{
		{"16 quiet", make([]ScanChannel, 16), 800 * time.Millisecond, "16 x 50 ms"},
		{"32 quiet", make([]ScanChannel, 32), 1600 * time.Millisecond, "32 x 50 ms"},
		{"16 DMR, 4 busy", busy(16, 4), 2240 * time.Millisecond, "0.8 + 4 x 0.36 s"},
		{"64 DMR, 16 busy", busy(64, 16), 8960 * time.Millisecond, "3.2 + 16 x 0.36 s: longer than many overs"},
		{"none", nil, 0, "an empty list takes no time"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Scan(tt.channels, UsualScanTimes()).Sweep; got != tt.sweep {
				t.Errorf("%v; want %v (%s)", got, tt.sweep, tt.why)
			}
		})
	}
	e := Scan(busy(16, 4), UsualScanTimes())
	if e.MeanWait != 1480*time.Millisecond || e.WorstWait != 2600*time.Millisecond {
		t.Errorf("%+v; want half a sweep and a whole one, and 360 ms", e)
	}
	if got := e.Missed(1120 * time.Millisecond); math.Abs(got-0.5) > 1e-12 {
		t.Errorf("%v of the calls of half a sweep are missed; want half", got)
	}
	if got := Resting([]float64{0.5, 0.5, math.NaN(), -1}); math.Abs(got-0.75) > 1e-12 {
		t.Errorf("%v; want 1 - 0.5 x 0.5", got)
	}
}

func TestScanProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		channels := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) ScanChannel {
			return ScanChannel{DMR: rapid.Bool().Draw(t, "dmr"), Tone: rapid.Bool().Draw(t, "tone"), Others: rapid.Float64().Draw(t, "others")}
		}), 1, 64).Draw(t, "channels")
		e := Scan(channels, UsualScanTimes())
		if e.Sweep < time.Duration(len(channels))*e.Times.Carrier || e.MeanWait > e.WorstWait || e.WorstWait < e.Sweep {
			t.Errorf("%+v", e)
		}
		if missed := e.Missed(time.Second); !(missed >= 0 && missed <= 1) {
			t.Errorf("%v", missed)
		}
		if shorter := Scan(channels[1:], UsualScanTimes()); shorter.Sweep >= e.Sweep {
			t.Errorf("%v with one channel less, %v with all", shorter.Sweep, e.Sweep)
		}
	})
}

func TestOneCarrier(t *testing.T) {
	const ridge, knob = signal.Hertz(444_325_000), signal.Hertz(146_940_000)
	got := OneCarrier([]ScanChannel{
		{Receive: ridge, DMR: true, Slot: 1}, {Receive: knob}, {Receive: ridge, DMR: true, Slot: 2},
		{Receive: ridge, DMR: true, Slot: 1}, {Receive: ridge}, {Receive: knob, Tone: true},
	})
	if diff := cmp.Diff([][]int{{0, 3}, {1, 5}}, got); diff != "" {
		t.Error(diff)
	}
}
