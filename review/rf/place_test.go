package rf

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// degreesAt returns a place with coordinates.
func degreesAt(lat, lon float64) *Place {
	return &Place{At: signal.Position{Lat: signal.MicroDegrees(math.Round(lat * 1e6)), Lon: signal.MicroDegrees(math.Round(lon * 1e6))}}
}

func TestSlack(t *testing.T) {
	tests := []struct {
		name string
		grid signal.Grid
		km   float64
		why  string
	}{
		{"four characters at 40 degrees", "DN70", 102, "half the diagonal is about 102 km (rf.md 0)"},
		{"six characters at 40 degrees", "DN70vc", 4.2, "half the diagonal is 4.2 km (rf.md 0)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := PlaceOf(tt.grid).Slack() / 1000; math.Abs(got-tt.km) > 0.02*tt.km {
				t.Errorf("%.2f km; want %v (%s)", got, tt.km, tt.why)
			}
		})
	}
}

func TestNearerThan(t *testing.T) {
	tests := []struct {
		name    string
		between Interval
		meters  float64
		want    Answer
		why     string
	}{
		{"near", Interval{90, 90}, 100, Yes, "both bounds below"},
		{"far", Interval{110, 110}, 100, No, "both bounds above"},
		{"on the line", Interval{100, 100}, 100, No, "the table asks for at least so much"},
		{"a locator across", Interval{90, 110}, 100, CannotTell, "the threshold lies between"},
		{"a locator that ends on it", Interval{90, 100}, 100, CannotTell, "it may be just enough"},
		{"a locator that begins on it", Interval{100, 110}, 100, No, "at least so much for sure"},
		{"nothing asked", Interval{0, 0}, 0, No, "nothing is nearer than 0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.between.NearerThan(tt.meters); got != tt.want {
				t.Errorf("%v; want %v (%s)", got, tt.want, tt.why)
			}
		})
	}
}

// Two points of two cells are never nearer or farther than the interval says.
func TestDistanceHoldsWhatTheCellsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyPosition(t, "a"), anyPosition(t, "b")
		chars := rapid.SampledFrom([]int{4, 6, 8}).Draw(t, "characters")
		d := Distance(PlaceOf(signal.GridOf(a, chars)), PlaceOf(signal.GridOf(b, chars)))
		if meters := Geodesic(a, b).Meters; meters < d.Least-0.5 || meters > d.Most+0.5 { // centers are whole micro-degrees
			t.Errorf("%v m is outside of %v", meters, d)
		}
		if d.Certain() {
			t.Error("two cells are at a certain distance")
		}
	})
}

// sitesByPairs is the oracle of Sites: every pair, joined until nothing changes.
func sitesByPairs(places []*Place, within float64) [][]int {
	label := make([]int, len(places))
	for i := range label {
		label[i] = i
	}
	for changed := true; changed; {
		changed = false
		for i := range places {
			for j := range places {
				if places[i] != nil && places[j] != nil && Distance(*places[i], *places[j]).Most <= within && label[i] > label[j] {
					label[i], changed = label[j], true
				}
			}
		}
	}
	var sites [][]int
	for i := range places {
		var members []int
		for j := range places {
			if label[j] == i && places[j] != nil {
				members = append(members, j)
			}
		}
		if members != nil {
			sites = append(sites, members)
		}
	}
	return sites
}

func TestSites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := make([]*Place, rapid.IntRange(0, 30).Draw(t, "places"))
		for i := range places {
			lat, lon := rapid.Float64Range(40, 40.1).Draw(t, "lat"), rapid.Float64Range(-104.1, -104).Draw(t, "lon")
			switch rapid.IntRange(0, 6).Draw(t, "kind") {
			case 0:
			case 1:
				p := PlaceOf(signal.GridOf(degreesAt(lat, lon).At, rapid.SampledFrom([]int{6, 8}).Draw(t, "characters")))
				places[i] = &p
			default:
				places[i] = degreesAt(lat, lon)
			}
		}
		sites, unsure := Sites(places, OneSiteM)
		if diff := cmp.Diff(sitesByPairs(places, OneSiteM), sites); diff != "" {
			t.Fatalf("pairs - ours +\n%s", diff)
		}
		for _, pair := range unsure {
			if Distance(*places[pair[0]], *places[pair[1]]).NearerThan(OneSiteM) == Yes {
				t.Errorf("%v is called unsure and is near", pair)
			}
		}
	})
}

// Hostile lists must not take a geodesic for every two places: one point for all, and bare squares.
func BenchmarkSites(b *testing.B) {
	square, point := PlaceOf("DN70"), degreesAt(40.1, -104.2)
	for name, place := range map[string]*Place{"points": point, "squares": &square} {
		places := make([]*Place, 30_000)
		for i := range places {
			places[i] = place
		}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Sites(places, OneSiteM)
			}
		})
	}
}

// A locator of six characters and the same one again may be one hill or two.
func TestSitesFromOneSquare(t *testing.T) {
	square, point := PlaceOf("DN70vc"), degreesAt(40.1, -104.2)
	sites, unsure := Sites([]*Place{&square, nil, &square, point, point}, OneSiteM)
	if diff := cmp.Diff([][]int{{0}, {2}, {3, 4}}, sites); diff != "" {
		t.Error(diff)
	}
	if !slices.EqualFunc(unsure, [][]int{{0, 2}, {0, 3}, {2, 3}}, slices.Equal) {
		t.Errorf("unsure %v", unsure)
	}
}
