package rf

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
)

// known takes a result that can't fail in a test of published values.
func known(x float64, err error) float64 {
	if err != nil {
		panic(err)
	}
	return x
}

// A check computes what a line of rf-checks.csv publishes.
type check struct {
	id        string
	ours      func() float64
	tolerance float64 // where the file's words can't be read as a number
}

// The tolerance of a check is that of its line; where the line has words, the one here.
var checks = []check{
	{id: "hor-itm-3", ours: func() float64 { return RadioHorizon(3) * math.Sqrt(8493.0/(earthM/1000*effective)) }},
	{id: "hor-itm-3b", ours: func() float64 { return RadioHorizon(3) * math.Sqrt(8493.0/(earthM/1000*effective)) }},
	{id: "hor-ratio", ours: func() float64 { return RadioHorizon(50) / math.Sqrt(2*earthM*50) }},
	{id: "hor-rule-ft", ours: func() float64 { return RadioHorizon(10*footM) / mileM }},
	{id: "hor-100", ours: func() float64 { return RadioHorizon(100) / 1000 }},
	{id: "hor-pair", ours: func() float64 { return (RadioHorizon(30) + RadioHorizon(1.5)) / 1000 }},
	{id: "fs-1", ours: func() float64 { return known(FreeSpaceLoss(10_000_000_000, 10_000)) }},
	{id: "fs-2", ours: func() float64 { return known(FreeSpaceLoss(1_000_000_000, 1_000)) }},
	{id: "fs-3", ours: func() float64 { return known(FreeSpaceLoss(1_000_000_000, 2_000)) }},
	{id: "fs-4", ours: func() float64 { return known(FreeSpaceLoss(3_500_000_000, 10_000)) }},
	{id: "fs-5", ours: func() float64 { return known(FreeSpaceLoss(10_000_000_000, 1_000)) }},
	{id: "fs-6", ours: func() float64 { return known(FreeSpaceLoss(150_000_000, 70*mileM)) }},
	{id: "link-1", ours: func() float64 { return DBmOf(10) + 6 + 3 - 100 }, tolerance: 1e-9},
	{id: "link-2", ours: func() float64 { return DBmOf(WattsOf(40)) + 10 - 3 - 136 - (-103) - 6 }, tolerance: 1e-9},
	{id: "erp-1", ours: func() float64 { return RadiatedWatts(150_000, 7, 2+2.2) }},
	{id: "erp-2", ours: func() float64 { return RadiatedWatts(200_000, 10, 4+3.2+0.8) }},
	{id: "erp-3", ours: func() float64 { return RadiatedWatts(200_000, 7, 2+2.8+1.2) }},
	{id: "vhf-contour-a", ours: func() float64 { return known(ServiceRadius(146_000_000, 75, 100)) / 1000 }},
	{id: "vhf-contour-b", ours: func() float64 { return known(ServiceRadius(146_000_000, 300, 100)) / 1000 }},
	{id: "vhf-contour-c", ours: func() float64 { return known(ServiceRadius(146_000_000, 300, 100)) / 1000 }},
	{id: "du-1", ours: func() float64 { return timesFarther(25) }},
	{id: "du-2", ours: func() float64 { return timesFarther(18) }},
	{id: "du-3", ours: func() float64 { return 40.2 * (1 + timesFarther(18)) }},
	{id: "erl-10", ours: func() float64 { return math.Log(known(ErlangB(120, 100))) }},
	{id: "erl-11", ours: func() float64 { return math.Log(known(ErlangB(20, 100))) }},
	{id: "im-2m-a", ours: func() float64 { return onReceiver(146_700_000, TwoAMinusB, 146_520_000, 146_340_000) }, tolerance: 1e-9},
	{id: "im-2m-b", ours: func() float64 { return onReceiver(146_700_000, TwoAMinusB, 146_520_000, 146_610_000) }, tolerance: 1e-9},
	{id: "harm-1", ours: func() float64 { return onReceiver(439_560_000, ThirdHarmonic, 146_520_000) }, tolerance: 1e-9},
	{id: "dmr-2", ours: func() float64 { return UsualScanTimes().Address.Seconds() * 1000 }, tolerance: 1e-9},
}

// timesFarther returns how many times farther an equal station must be for a ratio in dB, by search
// through WantedToUnwanted.
func timesFarther(dB float64) float64 {
	station := Emitter{ERPWatts: 50, HeightM: 30}
	return between(1, -dB, 100, 80-dB, 2, func(times float64) float64 {
		return known(WantedToUnwanted(station, station, 1, times)) - dB
	})
}

// onReceiver returns in MHz the one product of a form that falls on a receiver.
func onReceiver(receive signal.Hertz, form Form, transmit ...signal.Hertz) float64 {
	mix, err := Mixing(transmit, []Receiver{{receive, 1}})
	if err != nil || len(mix.Products) != 1 || mix.Products[0].Form != form {
		panic(fmt.Sprint(mix, err))
	}
	return mhz(mix.Products[0].Frequency)
}

// Lines of rf-checks.csv for what the room does not have, by the beginning of the id.
var notBuilt = []struct{ id, why string }{
	{"hata-", "a model for cities from 150 MHz up, below it for 2 m: rf.md 2.4 chose Egli's"},
	{"cost-", "the same"},
	{"itm-", "wants terrain, which issue 7 does not ask for"},
	{"p1546-", "thousands of tabulated values; Egli's loss is held against it in TestEgliAgainstP1546"},
	{"carson", "occupied bandwidth is for package license"},
	{"phil-", "whole-plan channel assignment: issue 7 does not ask for it"},
	{"celar-", "the same"},
	{"scan-1", "a setting of radios, no estimate"},
	{"dmr-1", "a frame's length, which no estimate uses"},
}

// TestPublished prints each published value beside ours. Every line of the file is computed, or named
// above with the reason why not.
func TestPublished(t *testing.T) {
	byID := map[string]check{}
	for _, c := range checks {
		byID[c.id] = c
	}
	t.Logf("%-14s %14s %16s %10s  %s", "id", "published", "ours", "apart", "unit, source")
	for _, l := range lines(t, "rf-checks.csv") {
		id := l["id"]
		switch c, ok := byID[id]; {
		case ok:
			l.compare(t, id, l.number(t, "output"), c.ours(), c.tolerance)
		case strings.HasPrefix(id, "erl-"):
			l.erlang(t)
		case strings.HasPrefix(id, "im-3-"), strings.HasPrefix(id, "im-5-"):
			l.threeTransmitters(t)
		case strings.HasPrefix(id, "im-count-"):
			l.countProducts(t)
		case strings.HasPrefix(id, "golomb-"):
			l.golomb(t)
		case id == "harm-2":
			l.secondHarmonic(t)
		case strings.HasPrefix(id, "scan-"), strings.HasPrefix(id, "dmr-3"):
			l.scan(t)
		default:
			l.excuse(t)
		}
	}
}

// compare fails where ours is farther from the published value than the tolerance of the line, or
// the given one where the line has words.
func (l line) compare(t *testing.T, id string, published, ours, tolerance float64) {
	t.Helper()
	if tolerance == 0 {
		text, _, _ := strings.Cut(l["tolerance"], " ")
		var err error
		if tolerance, err = strconv.ParseFloat(text, 64); err != nil {
			t.Fatalf("%s: tolerance %q", id, l["tolerance"])
		}
	}
	t.Logf("%-14s %14.9g %16.10g %+10.1e  %s; %s (%s)", id, published, ours, ours-published, l["unit"], l["source"], l["confidence"])
	if !(math.Abs(ours-published) <= tolerance) {
		t.Errorf("%s: %v; published %v, tolerance %v (%s)", id, ours, published, tolerance, l["source"])
	}
}

func (l line) excuse(t *testing.T) {
	for _, not := range notBuilt {
		if strings.HasPrefix(l["id"], not.id) {
			t.Logf("%-14s %14s %16s %10s  %s", l["id"], l["output"], "not built", "", not.why)
			return
		}
	}
	t.Errorf("%s (%s) is neither computed nor excused", l["id"], l["topic"])
}
