package survey_test

import (
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review/license"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

// TestChoose holds each pair that is offered against what it was chosen by: put into the plan at that place
// it makes no conflict that is short, and no product of third order.
func TestChoose(t *testing.T) {
	const base = "plan: Hills\nedition: 2026\nregion: US\nneighbors: neighbors.csv\nrepeaters:\n" +
		"  a: {output: 146.94, split: -0.6, fm: {tone: 103.5}, site: {lat: 40.1, lon: -104.2}}\n" +
		"  b: {output: 147.15, split: +0.6, fm: {tone: 103.5}, site: {lat: 40.1, lon: -104.2}}\n" +
		"  c: {output: 147.33, split: +0.6, fm: {tone: 103.5}, site: {lat: 40.5, lon: -104.2}}\n"
	const list = "callsign,output,split,lat,lon\nN0QRX,146.7,-0.6,40.9,-104.0\nN0QRY,145.33,-0.6,39.5,-104.9\n"
	load := func(text string) *plan.Plan {
		return plantest.Load(t, map[string][]byte{"plan.yaml": []byte(text), "neighbors.csv": []byte(list)})
	}
	law, err := license.For("US")
	if err != nil {
		t.Fatal(err)
	}
	place, err := survey.ParsePlace("40.1,-104.2")
	if err != nil {
		t.Fatal(err)
	}
	found := survey.Search{Plan: load(base), Law: law, At: place, Band: "2m", Mode: plan.ModeFM}.Choose()
	if len(found.Candidates) < 10 || found.Offered < 60 {
		t.Fatalf("%d of %d pairs", len(found.Candidates), found.Offered)
	}
	for i, c := range found.Candidates {
		if i > 0 && c.Margin > found.Candidates[i-1].Margin && len(c.Weak) == 0 {
			t.Errorf("%s comes after one with less room", c.Output)
		}
		s := survey.Of(load(base + "  new: {output: " + c.Output.String() + ", input: " + c.Input.String() + ", fm: {}, site: {lat: 40.1, lon: -104.2}}\n"))
		for _, conflict := range s.Conflicts {
			if conflict.Short != rf.No && (conflict.Ours.Name == "new" || conflict.Other.Name == "new") {
				t.Errorf("%s: %s", c.Output, conflict.Text())
			}
		}
		for _, site := range s.Sites {
			for _, p := range site.Products {
				if (p.Form.Order() == 3 || p.Form.Harmonic()) && p.Involves("new") {
					t.Errorf("%s: %s", c.Output, p.Formula)
				}
			}
		}
	}
}
