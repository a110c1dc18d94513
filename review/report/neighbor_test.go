package report

import (
	"io"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// TestNeighborNames names a row of the neighbor list by callsign, label and output, and shows it.
func TestNeighborNames(t *testing.T) {
	load := func(erp string) *plan.Expansion {
		return plan.Expand(plantest.Load(t, map[string][]byte{
			"plan.yaml": []byte("plan: Hills\nedition: 2026\nneighbors: neighbors.csv\nrepeaters:\n" +
				"  mill: {label: Mill, callsign: N0QRV, output: 146.94, split: -0.6, fm: {}, site: {lat: 40.1, lon: -104.2, height_m: 30, erp_w: 50}}\n" +
				"  knob: {callsign: N0QRW, output: 147.33, split: +0.6, fm: {}}\n" +
				"coordination:\n  a: {repeater: mill, with: N0QUA, by: Front Hills, date: 2024-03-12, text: Fine as it is.}\n"),
			"neighbors.csv": []byte("callsign,label,output,split,color_code,lat,lon,erp_w\nN0QUA,Far Hill,442.15,+5,4,40.55,-104.9," + erp + "\n"),
		}))
	}
	was, now := load("50"), load("60")
	diff := written(t, func(w io.Writer) error {
		return Text(w, Diff(&Document{Old: new(Origin), New: new(Origin), Comparison: plandiff.Compare(was, now), Expansion: now}), Terminal{Width: 400})
	})
	if !strings.Contains(diff, "neighbor N0QUA Far Hill, 442.150 MHz [label]") || strings.Contains(diff, "N0QUA/") || !strings.Contains(diff, "50 -> 60") {
		t.Errorf("the row is not named shortly: %s", diff)
	}
	for name, want := range map[string][]string{
		"n0qua":        {"N0QUA Far Hill: a neighbor", "Output: 442.150 MHz", "color code 4", "latitude 40.55"},
		"far hill":     {"N0QUA Far Hill: a neighbor"},
		"mill":         {"Site: latitude 40.1, longitude -104.2, antenna 30 m above ground, 50 W ERP", "Coordination, with N0QUA: Front Hills on 2024-03-12: Fine as it is."},
		"neighbor zzz": nil,
	} {
		p, err := Show(&Document{New: new(Origin), Expansion: now}, name)
		if (err == nil) != (want != nil) {
			t.Errorf("%s: %v", name, err)
		}
		if err != nil {
			continue
		}
		got := written(t, func(w io.Writer) error { return Text(w, p, Terminal{Width: 400}) })
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%s does not say %q: %s", name, w, got)
			}
		}
	}
	p, err := Show(&Document{New: new(Origin), Expansion: now}, "knob")
	if err != nil {
		t.Fatal(err)
	}
	if got := written(t, func(w io.Writer) error { return Text(w, p, Terminal{}) }); strings.Contains(got, "Coordination") || strings.Contains(got, "Site") {
		t.Errorf("a remark about others is told of knob: %s", got)
	}
}

// TestNewestPlan tells members of no HEAD.
func TestNewestPlan(t *testing.T) {
	if got := (Release{Name: "HEAD"}).called(); got != "the newest plan" {
		t.Errorf("HEAD is %q", got)
	}
	if got := (Release{Name: "2026.1"}).called(); got != "2026.1" {
		t.Errorf("a tag is %q", got)
	}
}
