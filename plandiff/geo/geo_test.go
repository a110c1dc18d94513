package geo_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"math"
	"testing"

	"passband.example/plandiff/geo"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

func places(t testing.TB, text string) ([]geo.Place, []*plan.Repeater) {
	t.Helper()
	p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte(text)})
	if len(p.Problems) > 0 {
		t.Fatal(p.Problems)
	}
	return geo.Places(p)
}

func TestPlaces(t *testing.T) {
	for _, tt := range []struct{ name, why, site, want, cell string }{
		{"coordinates", "as they are written", "lat: 40.1, lon: -104.2", "40.1, -104.2", ""},
		{"six decimals", "11 cm is more than a site is worth", "lat: 40.123456, lon: -104.000005", "40.12346, -104.00001", ""},
		{"both", "coordinates are better than a locator", "grid: DN70, lat: 40.1, lon: -104.2", "40.1, -104.2", ""},
		{"latitude alone", "half a position is none", "grid: JN58td, lat: 48.1", "48.146, 11.625", "somewhere in JN58td: up to 4 km from this point"},
		// Munich, JN58td: center 48.14583, 11.625 (the worked example of the locator system, IARU Region 1 VHF Managers Handbook, from memory)
		{"six characters", "2.5 by 5 minutes", "grid: JN58td", "48.146, 11.625", "somewhere in JN58td: up to 4 km from this point"},
		{"four characters", "one by two degrees", "grid: JN58", "48.5, 11", "somewhere in JN58: up to 94 km from this point"},
		{"eight characters", "15 by 30 seconds", "grid: JN58td25", "48.1479, 11.6042", "somewhere in JN58td25: up to 400 m from this point"},
		{"the corner of the world", "no cell crosses a pole or the date line", "grid: RR99", "89.5, 179", ""},
	} {
		got, nowhere := places(t, "repeaters: {a: {output: 146.94, site: {"+tt.site+"}}}")
		if len(got) != 1 || len(nowhere) != 0 || got[0].At.String() != tt.want || tt.cell != "" && got[0].Uncertainty() != tt.cell {
			t.Errorf("%s (%s): %+v %s", tt.name, tt.why, got, got[0].Uncertainty())
		}
	}
	if got, nowhere := places(t, "repeaters: {a: {site: {lat: 1}}, b: {}}"); len(got) != 0 || len(nowhere) != 2 {
		t.Errorf("%v %v", got, nowhere)
	}
}

// TestRadius holds the uncertainty against great circles, by the angle between vectors:
// no corner of a cell is farther, and the figure is not twice too large.
func TestRadius(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		grid := rapid.StringMatching(`[A-R]{2}[0-9]{2}([a-x]{2}([0-9]{2})?)?`).Draw(t, "grid")
		p := plantest.Load(t, map[string][]byte{"plan.yaml": []byte("repeaters: {a: {site: {grid: " + grid + "}}}")})
		at, _ := geo.Places(p)
		sw, ne := at[0].Locator.Bounds()
		center, _, _ := at[0].Locator.Center()
		far := math.Max(greatCircle(center, sw), greatCircle(center, ne))
		if r := float64(at[0].Radius); r < far*0.999 || r > far*1.8+2 {
			t.Fatalf("%s: %v m, and a corner is %v m away", grid, r, far)
		}
	})
}

func greatCircle(a, b signal.Position) float64 {
	vector := func(p signal.Position) [3]float64 {
		sinLat, cosLat := math.Sincos(p.Lat.Degrees() * math.Pi / 180)
		sinLon, cosLon := math.Sincos(p.Lon.Degrees() * math.Pi / 180)
		return [3]float64{cosLat * cosLon, cosLat * sinLon, sinLat}
	}
	u, v := vector(a), vector(b)
	return 6_371_000 * 2 * math.Asin(math.Min(1, math.Sqrt((u[0]-v[0])*(u[0]-v[0])+(u[1]-v[1])*(u[1]-v[1])+(u[2]-v[2])*(u[2]-v[2]))/2))
}

// TestFormats wants every plan to give a document that a reader takes, with the same
// number of places and no more decimals than are worth it.
func TestFormats(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plantest.Plan(t)
		at, nowhere := geo.Places(p)
		if len(at)+len(nowhere) != p.Repeaters.Len() {
			t.Fatal("a repeater is lost")
		}
		var out bytes.Buffer
		if err := geo.GeoJSON(&out, at); err != nil {
			t.Fatal(err)
		}
		var c struct {
			Features []struct {
				Geometry struct{ Type string }
			}
		}
		if err := json.Unmarshal(out.Bytes(), &c); err != nil {
			t.Fatal(err)
		}
		points := 0
		for _, f := range c.Features {
			if f.Geometry.Type == "Point" {
				points++
			}
		}
		out.Reset()
		if err := geo.GPX(&out, p.Header.Title.Or(""), at); err != nil {
			t.Fatal(err)
		}
		var g struct {
			Points []struct {
				Lat  float64 `xml:"lat,attr"`
				Lon  float64 `xml:"lon,attr"`
				Name string  `xml:"name"`
			} `xml:"wpt"`
		}
		if err := xml.Unmarshal(out.Bytes(), &g); err != nil {
			t.Fatal(err)
		}
		if points != len(at) || len(g.Points) != len(at) {
			t.Fatalf("%d places, %d points, %d waypoints", len(at), points, len(g.Points))
		}
		for i, w := range g.Points {
			if w.Lon < -180 || w.Lon >= 180 || math.Abs(w.Lat-at[i].At.Lat.Degrees()) > 1e-9 || w.Name != at[i].Repeater.Called() {
				t.Fatalf("%+v is not %+v", w, at[i])
			}
		}
	})
}

// TestHostile puts what means something in XML and JSON into the texts.
func TestHostile(t *testing.T) {
	for _, s := range []string{"</name><wpt>", "]]>", "&lt;", `\"`, "<!--", "é 日本 \U0001f4fb"} {
		quoted, _ := json.Marshal(s)
		at, _ := places(t, "repeaters: {a: {label: "+string(quoted)+", site: {lat: 1, lon: 2}}}")
		var out bytes.Buffer
		if err := geo.GPX(&out, s, at); err != nil {
			t.Fatal(err)
		}
		var g struct {
			Title string `xml:"metadata>name"`
			Name  string `xml:"wpt>name"`
		}
		if err := xml.Unmarshal(out.Bytes(), &g); err != nil || g.Name != s || g.Title != s {
			t.Errorf("%q reads %+v, %v", s, g, err)
		}
	}
}
