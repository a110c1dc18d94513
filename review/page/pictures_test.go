package page

import (
	"fmt"
	"math"
	"testing"

	"passband.example/plandiff/signal"
	"passband.example/review/rf"
	"pgregory.net/rapid"
)

// TestStripScale checks where frequencies lie, exactly.
func TestStripScale(t *testing.T) {
	st := &strip{Low: 146_000_000, High: 148_000_000}
	for _, c := range []struct {
		f    signal.Hertz
		want string
		why  string
	}{
		{146_000_000, "96.0", "the lower edge is where the lanes begin"},
		{147_000_000, "630.0", "the middle: 96 + 1068/2"},
		{148_000_000, "1164.0", "the upper edge"},
		{145_000_000, "96.0", "what is below lies on the edge"},
		{146_016_000, "104.5", "16 kHz of wide FM are 8.5 units: 16 x 1068 / 2000"},
	} {
		if got := st.x(c.f).String(); got != c.want {
			t.Errorf("%s lies at %s, want %s: %s", c.f, got, c.want, c.why)
		}
	}
	if got := tenths(-5).String(); got != "-0.5" {
		t.Errorf("minus a half is %s", got)
	}
}

// TestProjection holds the map against what makes it azimuthal equidistant: each point lies as
// far from the center, and in the direction, that the geodesic says.
func TestProjection(t *testing.T) {
	angle := func(t *rapid.T, most int64, name string) signal.MicroDegrees {
		return signal.MicroDegrees(rapid.Int64Range(-most, most).Draw(t, name))
	}
	rapid.Check(t, func(t *rapid.T) {
		var all []*station
		for i := range rapid.IntRange(1, 5).Draw(t, "stations") {
			at := signal.Position{Lat: angle(t, 90_000_000, fmt.Sprint("lat", i)), Lon: angle(t, 180_000_000, fmt.Sprint("lon", i))}
			all = append(all, &station{Place: rf.Place{At: at}})
		}
		p := projectionOf(all)
		center := p.point(p.center)
		for _, st := range all {
			at, way := p.point(st.Place.At), rf.Geodesic(p.center, st.Place.At)
			if got := math.Hypot(at.X-center.X, at.Y-center.Y) / p.scale; math.Abs(got-way.Meters) > 1 {
				t.Fatalf("%.1f m on the map, %.1f m on the ground", got, way.Meters)
			}
			if at.X < 0 || at.X > mapWidth || at.Y < 0 || at.Y > p.height {
				t.Fatalf("%v is outside the picture of %v", at, p.height)
			}
		}
		d := draw(all, nil)
		if len(d.Lines) > 60 {
			t.Fatalf("%d lines", len(d.Lines))
		}
	})
}

// TestNeighbors holds the search for the nearest against trying all.
func TestNeighbors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var all []*station
		for i := range rapid.IntRange(2, 12).Draw(t, "stations") {
			lat, lon := rapid.Int64Range(-90_000_000, 90_000_000).Draw(t, fmt.Sprint("lat", i)), rapid.Int64Range(-180_000_000, 180_000_000).Draw(t, fmt.Sprint("lon", i))
			all = append(all, &station{Place: rf.Place{At: signal.Position{Lat: signal.MicroDegrees(lat), Lon: signal.MicroDegrees(lon)}}})
		}
		neighbors(all, all)
		for _, st := range all {
			best := math.Inf(1)
			for _, o := range all {
				if o != st {
					best = min(best, rf.Geodesic(st.Place.At, o.Place.At).Meters)
				}
			}
			if got := rf.Geodesic(st.Place.At, st.Near.Place.At).Meters; got > best+0.01 {
				t.Fatalf("the nearest is %.1f m away, and another %.1f m", got, best)
			}
		}
	})
}

// TestDistanceWords checks how distances and directions are written.
func TestDistanceWords(t *testing.T) {
	ridge := signal.Position{Lat: 40_100_000, Lon: -104_200_000}
	north := signal.Position{Lat: 41_100_000, Lon: -104_200_000}
	a, b := &station{Place: rf.Place{At: ridge}}, &station{Place: rf.Place{At: north}}
	if got := distance(a, b); got != "111 km" {
		t.Errorf("a degree of latitude is %s (WGS 84: 111.04 km there)", got)
	}
	if got := bearing(rf.Geodesic(ridge, north)); got != "000° N" {
		t.Errorf("north is %s", got)
	}
	if got := bearing(rf.Geodesic(ridge, ridge)); got != "the same place" {
		t.Errorf("here is %s", got)
	}
	if got := coordinates(ridge); got != "40.1° N 104.2° W" {
		t.Errorf("%s", got)
	}
}
