package report

import (
	"fmt"
	"io"
	"strings"

	"passband.example/plandiff/geo"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

// slack writes how far off a place may be, as package survey does.
func slack(p rf.Place) string { return fmt.Sprintf("%.1f km", p.Slack()/1000) }

// Map lists where the repeaters of a plan stand.
func Map(d *Document) *Page {
	p := new(Page)
	d.title(p, "Places")
	places, nowhere := geo.Places(d.Expansion.Plan)
	t := table{head: []string{"repeater", "label", "latitude", "longitude", "known"}, numbers: []bool{false, false, true, true, false}}
	for _, at := range places {
		known := "by coordinates"
		if at.Locator != "" {
			known = fmt.Sprintf("somewhere in %s: up to %s from its middle", at.Locator, slack(rf.PlaceOf(at.Locator)))
		}
		t.rows = append(t.rows, []Span{
			code(at.Repeater.Key.V), text("%s", at.Repeater.Called()), text("%s", at.At.Lat), text("%s", at.At.Lon), text("%s", known),
		})
	}
	if len(t.rows) > 0 {
		p.table(t)
	}
	if w := Nowhere(nowhere); w != "" {
		p.paragraph(text("%s", w))
	}
	return p
}

// Nowhere names the repeaters that no map can show, or gives "".
func Nowhere(repeaters []*plan.Repeater) string {
	if len(repeaters) == 0 {
		return ""
	}
	names := make([]string, len(repeaters))
	for i, r := range repeaters {
		names[i] = r.Key.V
	}
	verb := "has"
	if len(names) > 1 {
		verb = "have"
	}
	return count(len(names), "repeater") + " " + verb + " no place, and no map shows them: " + strings.Join(names, ", ") + ". Write site: with grid, or lat and lon."
}

// MapForm is the JSON form of Map.
type MapForm struct {
	Passband string      `json:"passband"`
	Version  int         `json:"version"`
	Plan     string      `json:"plan"`
	At       *Origin     `json:"at"`
	Places   []PlaceForm `json:"places"`
	Nowhere  []string    `json:"nowhere"`
}

// PlaceForm is where a repeater stands, in degrees on WGS 84.
type PlaceForm struct {
	Repeater    string              `json:"repeater"`
	Label       string              `json:"label"`
	Lat         signal.MicroDegrees `json:"lat"`
	Lon         signal.MicroDegrees `json:"lon"`
	Locator     signal.Grid         `json:"locator,omitempty"`
	Uncertainty int                 `json:"uncertainty_m,omitempty"`
}

// MapJSON writes Map for programs.
func MapJSON(w io.Writer, d *Document) error {
	places, nowhere := geo.Places(d.Expansion.Plan)
	out := MapForm{
		Passband: "map", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New,
		Places: make([]PlaceForm, len(places)), Nowhere: make([]string, len(nowhere)),
	}
	for i, p := range places {
		out.Places[i] = PlaceForm{p.Repeater.Key.V, p.Repeater.Called(), p.At.Lat, p.At.Lon, p.Locator, p.Radius}
	}
	for i, r := range nowhere {
		out.Nowhere[i] = r.Key.V
	}
	return WriteJSON(w, out)
}
