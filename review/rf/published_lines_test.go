package rf

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"passband.example/plandiff/signal"
)

// erlang computes a line of the form "A=2 E, N=3", or the inverse "N=1, B=2 %: offered traffic".
func (l line) erlang(t *testing.T) {
	var a, percent float64
	var n int
	if _, err := fmt.Sscanf(l["inputs"], "A=%g E, N=%d", &a, &n); err == nil {
		l.compare(t, l["id"], l.number(t, "output"), known(ErlangB(a, n)), 0)
		return
	}
	if _, err := fmt.Sscanf(l["inputs"], "N=%d, B=%g %%: offered traffic", &n, &percent); err != nil {
		t.Fatalf("%s: %q: %v", l["id"], l["inputs"], err)
	}
	l.compare(t, l["id"], l.number(t, "output"), known(ErlangBTraffic(n, percent/100)), 0)
}

// threeTransmitters holds the products of 200, 195 and 187 MHz against the printed ones of a form.
func (l line) threeTransmitters(t *testing.T) {
	forms := map[string]Form{"2A-B": TwoAMinusB, "A+B-C": APlusBMinusC, "3A-2B": ThreeAMinusTwoB}
	transmit := []signal.Hertz{200_000_000, 195_000_000, 187_000_000}
	var receive []Receiver
	for f := signal.Hertz(100_000_000); f <= 300_000_000; f += 1_000_000 {
		receive = append(receive, Receiver{f, 1})
	}
	mix, err := Mixing(transmit, receive)
	if err != nil {
		t.Fatal(err)
	}
	var found []int
	for _, p := range mix.Products {
		if p.Form == forms[l["inputs"]] {
			found = append(found, int(p.Frequency/1_000_000))
		}
	}
	slices.Sort(found)
	ours := strings.Trim(fmt.Sprint(found), "[]")
	t.Logf("%-14s %14s %16s  %s (%s)", l["id"], l["output"], ours, l["source"], l["confidence"])
	if ours != l["output"] {
		t.Errorf("%s: %s; published %s", l["id"], ours, l["output"])
	}
}

// countProducts counts the third-order products of n transmitters, with one receiver wide enough for
// all of them; it goes past the limits of Mixing's receivers by asking the mixer.
func (l line) countProducts(t *testing.T) {
	n, err := strconv.Atoi(strings.TrimPrefix(l["id"], "im-count-"))
	if err != nil {
		t.Fatal(err)
	}
	var transmit []signal.Hertz
	for i := range n {
		transmit = append(transmit, 144_000_000+signal.Hertz(i*i*100+i)) // all products inside 1 MHz
	}
	m := newMixer(transmit)
	m.wanted = func(p Product) bool { return p.Form == TwoAMinusB || p.Form == APlusBMinusC }
	mix := m.mix([]Receiver{{144_000_000, widestReceiver}})
	l.compare(t, l["id"], l.number(t, "output"), float64(len(mix.Products)+mix.HeldBack), 0.5)
}

// golomb counts the third-order products of a channel set that fall on a member.
func (l line) golomb(t *testing.T) {
	var channels []int
	for _, word := range strings.Fields(strings.TrimPrefix(l["inputs"], "channels ")) {
		c, err := strconv.Atoi(strings.TrimSuffix(word, ":"))
		if err != nil {
			break
		}
		channels = append(channels, c)
	}
	hits := 0
	for _, raster := range []signal.Hertz{5_000, 12_500, 20_000} {
		hits += thirdOnMembers(t, channels, raster)
	}
	t.Logf("%-14s %14s %16d  third-order hits of %v; %s", l["id"], l["output"], hits, channels, l["source"])
	if len(channels) < 4 || (hits == 0) != (l["output"] == "0") {
		t.Errorf("%s: channels %v have %d hits; published %s", l["id"], channels, hits, l["output"])
	}
}

// secondHarmonic finds that 1.25 m falls into 70 cm.
func (l line) secondHarmonic(t *testing.T) {
	for transmit, receive := range map[signal.Hertz]signal.Hertz{222_000_000: 444_000_000, 225_000_000: 450_000_000} {
		mix, err := Mixing([]signal.Hertz{transmit}, []Receiver{{receive, 1}})
		if err != nil || len(mix.Products) != 1 || mix.Products[0].Form != SecondHarmonic {
			t.Errorf("%s: %+v, %v", l["id"], mix, err)
		}
	}
	t.Logf("%-14s %14s %16s  %s", l["id"], l["output"], "444..450", l["source"])
}

// scan holds the assumptions and sweeps against the lines on scanning.
func (l line) scan(t *testing.T) {
	times := UsualScanTimes()
	switch l["id"] {
	case "scan-2", "scan-3":
		ours := times.Carrier
		if l["id"] == "scan-3" {
			ours = times.Tone
		}
		low, high, _ := strings.Cut(l["output"], "..")
		if ours < milliseconds(t, low) || ours > milliseconds(t, high) {
			t.Errorf("%s: %v; want %s %s", l["id"], ours, l["output"], l["unit"])
		}
		t.Logf("%-14s %14s %16.10g  %s; %s", l["id"], l["output"], inMilliseconds(ours), l["unit"], l["source"])
	case "scan-4":
		l.compare(t, l["id"], 0.8, Scan(make([]ScanChannel, 16), times).Sweep.Seconds(), 1e-9)
		l.compare(t, l["id"], 3.2, Scan(make([]ScanChannel, 64), times).Sweep.Seconds(), 1e-9)
	case "dmr-3": // two superframes
		l.compare(t, l["id"], l.number(t, "output"), 2*inMilliseconds(times.Address), 1)
	default:
		l.excuse(t)
	}
}

func inMilliseconds(d time.Duration) float64 { return float64(d.Milliseconds()) }

func milliseconds(t *testing.T, text string) time.Duration {
	t.Helper()
	d, err := time.ParseDuration(text + "ms")
	if err != nil {
		t.Fatal(err)
	}
	return d
}
