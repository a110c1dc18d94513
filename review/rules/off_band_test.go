package rules_test

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
	"passband.example/review/rules"
)

// TestOffBandAtTheEdges asks at the closest carriers to each edge of three US bands and
// one hertz beyond. Source of the bands: 47 CFR 97.301(a) and, for phone above 144.1, 97.305(a),
// (c); that the whole signal counts: 97.307(b). The widths of 16, 11 and 7.6 kHz: 47 CFR
// 2.202(g) and a measured 7K60. The sums are done by hand.
func TestOffBandAtTheEdges(t *testing.T) {
	const (
		wide   = "fm: {}"
		narrow = "fm: {width: narrow}"
		dmr    = "dmr: {color_code: 1, group: local}"
	)
	for _, c := range []struct {
		name, mode, why string
		low, high       signal.Hertz // closest carriers inside
	}{
		{"2 m wide", wide, "144.1 and 148, less 8 kHz", 144_108_000, 147_992_000},
		{"2 m narrow", narrow, "144.1 and 148, less 5.5 kHz", 144_105_500, 147_994_500},
		{"2 m DMR", dmr, "144.1 and 148, less 3.8 kHz", 144_103_800, 147_996_200},
		{"1.25 m wide", wide, "222 and 225, less 8 kHz", 222_008_000, 224_992_000},
		{"1.25 m narrow", narrow, "222 and 225, less 5.5 kHz", 222_005_500, 224_994_500},
		{"1.25 m DMR", dmr, "222 and 225, less 3.8 kHz", 222_003_800, 224_996_200},
		{"70 cm wide", wide, "420 and 450, less 8 kHz", 420_008_000, 449_992_000},
		{"70 cm narrow", narrow, "420 and 450, less 5.5 kHz", 420_005_500, 449_994_500},
		{"70 cm DMR", dmr, "420 and 450, less 3.8 kHz", 420_003_800, 449_996_200},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, at := range []struct {
				on  signal.Hertz
				off bool
			}{{c.low - 1, true}, {c.low, false}, {c.low + 1, false}, {c.high - 1, false}, {c.high, false}, {c.high + 1, true}} {
				text := fmt.Sprintf("groups:\n  local: {id: 99932}\nchannels:\n  edge: {simplex: %s, %s}\n", at.on, c.mode)
				x := load(t, map[string]string{"plan.yaml": header, "channels.yaml": text})
				found := check(t, only(rules.OffBand.ID, rules.EmissionNotAllowed.ID), x)
				if off := len(found) > 0; off != at.off {
					t.Errorf("%s MHz: found %v, want %v: %s", at.on, found, at.off, c.why)
				}
				for _, f := range found {
					if f.At.Line != 4 || len(f.Values) == 0 || f.Values[0] != at.on.String() {
						t.Errorf("%s MHz: the finding is of another: %+v", at.on, f)
					}
				}
			}
		})
	}
}

// TestOffBandSaysWhatItRestsOn wants source, edition, confidence and the last word of the
// license holder, and the likeliest fix.
func TestOffBandSaysWhatItRestsOn(t *testing.T) {
	for _, c := range []struct{ name, record, fix, not, why string }{
		{"near", "repeaters:\n  cairn: {output: 147.395, split: +0.6, fm: {}}", "147.992 MHz; ask the coordinator", "", "the nearest frequency is 3 kHz away"},
		{"near simplex", "channels:\n  call: {simplex: 144.05, fm: {}}", "the nearest that is allowed is 144.108 MHz", "", "phone begins at 144.1: 97.305(a)"},
		{"ten off", "repeaters:\n  fell: {output: 454.55, split: +5, fm: {}}", "did you mean output: 444.550?", "", "its input fits too then"},
		{"ten off alone", "channels:\n  call: {simplex: 156.52, fm: {}}", "did you mean 146.520?", "", "one digit"},
		{"ten off, input not", "repeaters:\n  far: {output: 457.55, split: +5, fm: {}}", "look up the frequency that was coordinated", "447.55", "the input would be 452.55, which will not do"},
		{"elsewhere", "channels:\n  far: {simplex: 152.4, fm: {}}", "write receive: in place of simplex:", "", "no slip leads there"},
	} {
		t.Run(c.name, func(t *testing.T) {
			x := load(t, map[string]string{"plan.yaml": header, "x.yaml": c.record + "\n"})
			found := check(t, only(rules.OffBand.ID, rules.EmissionNotAllowed.ID, rules.OtherService.ID), x)
			if len(found) != 1 {
				t.Fatalf("want one finding, got %v", found)
			}
			f := found[0]
			if !strings.Contains(f.Fix, c.fix) {
				t.Errorf("the fix is %q, want %q: %s", f.Fix, c.fix, c.why)
			}
			if c.not != "" && strings.Contains(f.Fix, c.not) {
				t.Errorf("the fix %q speaks of %s: %s", f.Fix, c.not, c.why)
			}
			if !strings.Contains(f.Why, "the license holder answers for every transmission") {
				t.Errorf("the last word is missing: %q", f.Why)
			}
			for _, part := range []string{"47 CFR 97.", "[97.301: ", "bands/us.csv line ", "(read)"} {
				if !strings.Contains(f.Source, part) {
					t.Errorf("%q is missing in the source %q", part, f.Source)
				}
			}
		})
	}
}
