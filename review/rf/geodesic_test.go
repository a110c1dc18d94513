package rf

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// The tolerances of the published lines. The examples of the agency and of Vincenty's paper print
// azimuths to 0.01 second, which is more than the 1e-6 degree of the others.
const (
	toleranceM   = 0.001
	toleranceDeg = 1e-6
	printedDeg   = 0.01 / 3600
)

func TestGeodesicPublished(t *testing.T) {
	t.Logf("%16s %16s %10s  %s", "published m", "ours m", "apart m", "azimuths apart, degrees")
	for i, l := range lines(t, "geodesics.csv") {
		lat1, lon1, lat2, lon2 := l.number(t, "lat1"), l.number(t, "lon1"), l.number(t, "lat2"), l.number(t, "lon2")
		want := l.number(t, "s12_m")
		meters, azi1, azi2 := inverse(lat1, lon1, lat2, lon2)
		off1, off2 := 0.0, 0.0
		if l.has("azi1") {
			off1 = math.Remainder(azi1-l.number(t, "azi1"), 360)
			off2 = math.Remainder(azi2-l.number(t, "azi2"), 360)
		}
		t.Logf("%16.6f %16.6f %+10.1e  %+.1e %+.1e", want, meters, meters-want, off1, off2)
		tolerance := toleranceDeg
		if i >= 20 {
			tolerance = printedDeg
		}
		if math.Abs(meters-want) > toleranceM || math.Abs(off1) > tolerance || math.Abs(off2) > tolerance {
			t.Errorf("line %d: %v m %v %v; want %v (%s)", i+1, meters, azi1, azi2, l, l["source"])
		}
	}
}

// 683 pairs from the reference library, named with its version in the file. Near-antipodal azimuths
// turn fast with the last digits of the input, so an azimuth is judged by where it leads.
func TestGeodesicLibrary(t *testing.T) {
	pairs := lines(t, "geodesic-pairs.csv")
	if len(pairs) < 500 {
		t.Fatalf("%d pairs; want at least 500", len(pairs))
	}
	worst := map[string]struct{ meters, azimuth float64 }{}
	var kinds []string
	for _, l := range pairs {
		lat1, lon1, lat2, lon2 := l.number(t, "lat1"), l.number(t, "lon1"), l.number(t, "lat2"), l.number(t, "lon2")
		meters, azi1, azi2 := inverse(lat1, lon1, lat2, lon2)
		w, seen := worst[l["kind"]]
		if !seen {
			kinds = append(kinds, l["kind"])
		}
		w.meters = math.Max(w.meters, math.Abs(meters-l.number(t, "s12_m")))
		// An azimuth counts by how far beside the mark it would lead.
		beside := math.Min(meters, math.Pi*polarM-math.Min(meters, math.Pi*polarM))
		off := math.Max(math.Abs(math.Remainder(azi1-l.number(t, "azi1"), 360)), math.Abs(math.Remainder(azi2-l.number(t, "azi2"), 360)))
		w.azimuth = math.Max(w.azimuth, radians(off)*beside)
		worst[l["kind"]] = w
		if math.Abs(meters-l.number(t, "s12_m")) > 1e-6 {
			t.Errorf("%v: %.9f m", l, meters)
		}
		if apart := distance3(ecef(direct(lat1, lon1, azi1, meters)), ecef(lat2, lon2)); apart > 1e-6 {
			t.Errorf("%v: azimuth %v leads %g m beside the mark", l, azi1, apart)
		}
	}
	for _, kind := range kinds {
		t.Logf("%-16s worst %.1e m in length, %.1e m beside by azimuth", kind, worst[kind].meters, worst[kind].azimuth)
		if worst[kind].azimuth > 1e-6 {
			t.Errorf("%s: an azimuth leads %g m beside the library's", kind, worst[kind].azimuth)
		}
	}
}

// anyPosition draws a position, the poles and the date line more often than chance would.
func anyPosition(t *rapid.T, label string) signal.Position {
	lat := rapid.OneOf(rapid.Int64Range(-90e6, 90e6), rapid.SampledFrom([]int64{-90e6, 0, 90e6}))
	lon := rapid.OneOf(rapid.Int64Range(-180e6, 180e6), rapid.SampledFrom([]int64{-180e6, 0, 180e6}))
	return signal.Position{Lat: signal.MicroDegrees(lat.Draw(t, label+" lat")), Lon: signal.MicroDegrees(lon.Draw(t, label+" lon"))}
}

func TestGeodesicProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := anyPosition(t, "a"), anyPosition(t, "b"), anyPosition(t, "c")
		ab, ba := Geodesic(a, b), Geodesic(b, a)
		for _, x := range []float64{ab.Meters, ab.Bearing, ab.Back} {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%v to %v: %+v", a, b, ab)
			}
		}
		if math.Abs(ab.Meters-ba.Meters) > 1e-6 {
			t.Errorf("%v m there and %v m back", ab.Meters, ba.Meters)
		}
		if ab.Bearing < 0 || ab.Bearing >= 360 || ab.Back < 0 || ab.Back >= 360 {
			t.Errorf("bearings %v and %v; want 0 to 360", ab.Bearing, ab.Back)
		}
		if d := Geodesic(a, a).Meters; d != 0 {
			t.Errorf("a position is %v m from itself", d)
		}
		if around := Geodesic(a, c).Meters + Geodesic(c, b).Meters; ab.Meters > around+1e-6 {
			t.Errorf("%v m straight, %v m by way of %v", ab.Meters, around, c)
		}
		if half := 20_003_931.459; ab.Meters < 0 || ab.Meters > half { // from pole to pole
			t.Errorf("%v m; half way around is %v", ab.Meters, half)
		}
		chord := distance3(ecef(a.Lat.Degrees(), a.Lon.Degrees()), ecef(b.Lat.Degrees(), b.Lon.Degrees()))
		if chord > ab.Meters+1e-6 {
			t.Errorf("%v m over the ground, %v m through it", ab.Meters, chord)
		}
	})
}

func FuzzGeodesic(f *testing.F) {
	f.Add(int64(0), int64(0), int64(500_000), int64(179_500_000)) // near-antipodal, geodesics.csv
	f.Add(int64(90e6), int64(0), int64(-90e6), int64(0))
	f.Add(int64(1)<<62, int64(-1)<<62, int64(-1)<<62, int64(1)<<62)
	f.Fuzz(func(t *testing.T, lat1, lon1, lat2, lon2 int64) {
		a := signal.Position{Lat: signal.MicroDegrees(lat1), Lon: signal.MicroDegrees(lon1)}
		b := signal.Position{Lat: signal.MicroDegrees(lat2), Lon: signal.MicroDegrees(lon2)}
		p := Geodesic(a, b)
		if !(p.Meters >= 0 && p.Meters < 20_003_932) || !(p.Bearing >= 0 && p.Bearing < 360) || !(p.Back >= 0 && p.Back < 360) {
			t.Errorf("%v to %v: %+v", a, b, p)
		}
	})
}

func BenchmarkGeodesic(b *testing.B) {
	from, to := signal.Position{Lat: 40_100_000, Lon: -104_200_000}, signal.Position{Lat: 40_900_000, Lon: -105_100_000}
	for b.Loop() {
		Geodesic(from, to)
	}
}
