package e2e

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/geojson"
	"github.com/peterstace/simplefeatures/geom"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/geo"
	"passband.example/plandiff/plan"
)

// corners has a repeater of each kind of place, with texts that mean something in XML.
const corners = `plan: 'A <b> & "C" ]]>'
repeaters:
  known: {label: '</name><wpt lat="0"/>', callsign: N0QRV, output: 446.00625, split: -0.6, fm: {tone: 103.5}, site: {lat: 40.123456, lon: -104.2, height_m: 12.5, erp_w: 50}}
  square: {label: "&lt; é 日本", output: 146.94, site: {grid: JN58}}
  field: {output: 146.94, dmr: {color_code: 0}, site: {grid: jn58td25kx}}
  pole: {site: {lat: -90, lon: 180}}
  corner: {site: {grid: RR99}}
  west: {site: {grid: AA00}}
  nowhere: {output: 146.94}
`

// plans are those that the formats are tried on.
func plans(t *testing.T) map[string]*plan.Plan {
	t.Helper()
	all := map[string]*plan.Plan{}
	for name, fsys := range map[string]fstest.MapFS{"corners": {"plan.yaml": {Data: []byte(corners)}}, "empty": {"plan.yaml": {}}} {
		p, err := plan.Load(t.Context(), fsys)
		if err != nil || len(p.Problems) > 0 {
			t.Fatal(err, p.Problems)
		}
		all[name] = p
	}
	p, err := plan.Load(t.Context(), demo.Branch())
	if err != nil {
		t.Fatal(err)
	}
	all["demo"] = p
	return all
}

// tool gives a path below the folder of the npm packages.
func tool(t *testing.T, name string) string {
	t.Helper()
	folder := os.Getenv("PASSBAND_FORMATS")
	file := filepath.Join(folder, name)
	if _, err := os.Stat(file); folder == "" || err != nil {
		t.Fatalf("PASSBAND_FORMATS must name a folder of npm packages with %s in it; .ci/run shows how to make one", name)
	}
	return file
}

func written(t *testing.T, p *plan.Plan) (places []geo.Place, geoJSON, gpx []byte) {
	t.Helper()
	places, _ = geo.Places(p)
	var a, b bytes.Buffer
	if err := geo.GeoJSON(&a, places); err != nil {
		t.Fatal(err)
	}
	if err := geo.GPX(&b, p.Header.Title.Or("Repeaters"), places); err != nil {
		t.Fatal(err)
	}
	return places, a.Bytes(), b.Bytes()
}

// TestGeoJSON holds what is written against the JSON Schema of GeoJSON that the npm
// package geojson-schema carries, and has two libraries read it.
func TestGeoJSON(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile(tool(t, "geojson-schema/FeatureCollection.json"))
	if err != nil {
		t.Fatal(err)
	}
	for name, p := range plans(t) {
		places, data, _ := written(t, p)
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(doc); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		c, err := geojson.UnmarshalFeatureCollection(data)
		if err != nil {
			t.Fatal(err)
		}
		var simple geom.GeoJSONFeatureCollection
		if err := json.Unmarshal(data, &simple); err != nil || len(simple) != len(c.Features) {
			t.Errorf("%s: %d features for one reader, %d for the other, %v", name, len(simple), len(c.Features), err)
		}
		for _, f := range simple {
			if err := f.Geometry.Validate(); err != nil {
				t.Errorf("%s: %v is not valid by OGC simple features: %v", name, f.ID, err)
			}
		}
		checkFeatures(t, name, places, c)
	}
}

// checkFeatures wants each repeater at its place, longitude first, and each cell
// counterclockwise (RFC 7946, 3.1.1 and 3.1.6) and around its repeater.
func checkFeatures(t *testing.T, name string, places []geo.Place, c *geojson.FeatureCollection) {
	t.Helper()
	at := 0
	for _, f := range c.Features {
		p := places[max(at-1, 0)]
		switch g := f.Geometry.(type) {
		case orb.Point:
			p = places[at]
			at++
			if g.Lon() != p.At.Lon.Degrees() || g.Lat() != p.At.Lat.Degrees() || f.Properties["repeater"] != p.Repeater.Key.V || f.Properties["label"] != p.Repeater.Called() {
				t.Errorf("%s: %v %v is not %+v", name, g, f.Properties, p)
			}
		case orb.Polygon:
			if g[0].Orientation() != orb.CCW || !g[0].Closed() || !g.Bound().Contains(orb.Point{p.At.Lon.Degrees(), p.At.Lat.Degrees()}) {
				t.Errorf("%s: the cell %v is not around %+v", name, g, p)
			}
		default:
			t.Errorf("%s: a %T", name, g)
		}
	}
	if at != len(places) {
		t.Errorf("%s: %d points for %d places", name, at, len(places))
	}
}

// TestGPX holds what is written against the published schema of GPX 1.1 (which Debian's
// package pytrainer carries) by xmllint, and that against documents that it must refuse.
func TestGPX(t *testing.T) {
	if _, err := exec.LookPath("xmllint"); err != nil {
		t.Fatal("the command xmllint is needed; install Debian's libxml2-utils")
	}
	schema := os.Getenv("PASSBAND_GPX")
	if schema == "" {
		t.Fatal("PASSBAND_GPX must name the published schema of GPX 1.1; .ci/run shows where it comes from")
	}
	valid := func(data []byte) (bool, string) {
		cmd := exec.Command("xmllint", "--nonet", "--noout", "--schema", schema, "-")
		cmd.Stdin = bytes.NewReader(data)
		out, err := cmd.CombinedOutput()
		return err == nil, string(out)
	}
	for name, p := range plans(t) {
		_, _, data := written(t, p)
		if ok, why := valid(data); !ok {
			t.Errorf("%s: %s", name, why)
		}
		if name != "corners" {
			continue
		}
		for what, change := range map[string][2]string{
			"a longitude of 180": {`lon="-104.2"`, `lon="180"`}, "a latitude beyond the pole": {`lat="40.12346"`, `lat="90.1"`},
			"the order of elements": {"<type>repeater</type>", "<name>x</name>"}, "another version": {`version="1.1"`, `version="1.0"`},
		} {
			spoiled := bytes.Replace(data, []byte(change[0]), []byte(change[1]), 1)
			if ok, _ := valid(spoiled); ok || bytes.Equal(spoiled, data) {
				t.Errorf("the schema takes %s", what)
			}
		}
	}
}

// TestGPXIsRead has the reader of the npm package togeojson read the waypoints.
func TestGPXIsRead(t *testing.T) {
	tool(t, "@tmcw/togeojson/package.json")
	script := filepath.Join(filepath.Dir(tool(t, ".")), "read.mjs")
	program := `import {gpx} from "@tmcw/togeojson"; import {DOMParser} from "@xmldom/xmldom"; import {readFileSync} from "node:fs";
process.stdout.write(JSON.stringify(gpx(new DOMParser().parseFromString(readFileSync(0, "utf8"), "text/xml"))));`
	if err := os.WriteFile(script, []byte(program), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, p := range plans(t) {
		places, _, data := written(t, p)
		cmd := exec.Command("node", script)
		cmd.Stdin = bytes.NewReader(data)
		var complaint strings.Builder
		cmd.Stderr = &complaint
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("%s: %v %s", name, err, complaint.String())
		}
		c, err := geojson.UnmarshalFeatureCollection(out)
		if err != nil || len(c.Features) != len(places) {
			t.Fatalf("%s: %d waypoints for %d places, %v", name, len(c.Features), len(places), err)
		}
		for i, f := range c.Features {
			g, p := f.Geometry.(orb.Point), places[i]
			east := math.Mod(math.Abs(g.Lon()-p.At.Lon.Degrees()), 360) // 180 is -180 in GPX
			if east > 1e-9 || math.Abs(g.Lat()-p.At.Lat.Degrees()) > 1e-9 || f.Properties["name"] != p.Repeater.Called() {
				t.Errorf("%s: %v %v is not %+v", name, g, f.Properties, p)
			}
		}
	}
}
