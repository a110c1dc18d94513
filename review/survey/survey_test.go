package survey_test

import (
	"fmt"
	"slices"
	"testing"

	"passband.example/plandiff/plan/plantest"
	"passband.example/review/survey"
)

func of(t *testing.T, text string) *survey.Survey {
	t.Helper()
	p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte("plan: Hills\nedition: 2026\nregion: US\n" + text)})
	if len(p.Problems) > 0 {
		t.Fatal(p.Problems)
	}
	return survey.Of(p)
}

// TestConflicts wants each kind of conflict in words. The distances were looked up with a public
// geodesic calculator's method, which package rf is held against.
func TestConflicts(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"co-channel", "70 mi apart, and the default for 2 m is 100 mi", `repeaters:
  ridge: {output: 146.94, split: -0.6, fm: {tone: 103.5}, site: {lat: 40.0, lon: -104.0}}
  knob:  {output: 146.94, split: -0.6, fm: {tone: 88.5}, site: {lat: 41.0, lon: -104.0}}
`, "knob and ridge have the same output, 146.940 MHz, with different access tones or color codes; they are 111 km (69 mi) apart, bearing 180 degrees, and the row used asks 161 km (100 mi)"},
		{"adjacent", "15 kHz apart, 40 mi are asked", `repeaters:
  ridge: {output: 146.94, split: -0.6, fm: {}, site: {lat: 40.0, lon: -104.0}}
  knob:  {output: 146.955, split: -0.6, fm: {}, site: {lat: 40.0, lon: -104.1}}
`, "knob and ridge have outputs 15 kHz from each other, 146.955 and 146.940 MHz; they are 8.5 km (5.3 mi) apart, bearing 90 degrees, and the row used asks 64 km (40 mi)"},
		{"crossed", "one hears what the other sends", `repeaters:
  ridge: {output: 146.94, split: -0.6, fm: {}, site: {lat: 40.0, lon: -104.0}}
  knob:  {output: 146.34, split: +0.6, fm: {}, site: {lat: 40.0, lon: -104.1}}
`, "the output of knob, 146.340 MHz, is the input of ridge; they are 8.5 km (5.3 mi) apart, bearing 90 degrees, and the row used asks 161 km (100 mi)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := of(t, c.text)
			if len(s.Conflicts) != 1 {
				t.Fatalf("%d conflicts", len(s.Conflicts))
			}
			if got := s.Conflicts[0].Text(); got != c.want {
				t.Errorf("%s: got\n%s\nwant\n%s", c.why, got, c.want)
			}
		})
	}
}

// TestSites wants the product of a worked example of the trade (146.52 with 146.34 falls on
// 146.70: reference list rf-checks.csv, im-2m-a) at a site, and none where the two stand apart.
func TestSites(t *testing.T) {
	const three = `repeaters:
  a: {output: 146.52, input: 147.52, fm: {}, site: {lat: 40.0, lon: -104.0}}
  b: {output: 146.34, input: 147.34, fm: {}, site: {lat: 40.0, lon: -104.001}}
  c: {output: 147.9, input: 146.7, fm: {}, site: {lat: 40.0, lon: -104.0%s}}
`
	s := of(t, fmt.Sprintf(three, ""))
	if len(s.Sites) != 1 || len(s.Sites[0].Members) != 3 {
		t.Fatalf("sites: %+v", s.Sites)
	}
	i := slices.IndexFunc(s.Sites[0].Products, func(p survey.Product) bool { return p.Formula == "2 x 146.520 - 146.340 = 146.700" })
	if i < 0 {
		t.Fatalf("the product is missing: %+v", s.Sites[0].Products)
	}
	if p := s.Sites[0].Products[i]; p.On.Name != "c" || p.Sources[0].Name != "a" || p.Sources[1].Name != "b" || p.Band != "2m" || p.Form.Order() != 3 {
		t.Errorf("got %+v", p)
	}
	if s := of(t, fmt.Sprintf(three, "9")); len(s.Sites) != 1 || len(s.Sites[0].Members) != 2 || len(s.Sites[0].Products) != 0 {
		t.Errorf("7 km away: %+v", s.Sites)
	}
}
