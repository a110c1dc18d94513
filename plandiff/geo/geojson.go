package geo

import (
	"encoding/json"
	"io"

	"passband.example/plandiff/signal"
)

// A collection is a GeoJSON FeatureCollection (RFC 7946 section 3.3).
type collection struct {
	Type     string    `json:"type"`
	Features []feature `json:"features"`
}

type feature struct {
	Type       string     `json:"type"`
	ID         string     `json:"id"`
	Geometry   geometry   `json:"geometry"`
	Properties properties `json:"properties"`
}

type geometry struct {
	Type        string `json:"type"`
	Coordinates any    `json:"coordinates"`
}

// properties say of a repeater what a map can show.
type properties struct {
	Kind      string      `json:"kind"` // repeater, or the cell of its locator
	Repeater  string      `json:"repeater"`
	Label     string      `json:"label"`
	Callsign  string      `json:"callsign,omitempty"`
	Output    json.Number `json:"output_mhz,omitempty"`
	Input     json.Number `json:"input_mhz,omitempty"`
	Tone      string      `json:"tone,omitempty"`
	ColorCode *int        `json:"color_code,omitempty"`
	Height    json.Number `json:"antenna_above_ground_m,omitempty"`
	ERP       json.Number `json:"erp_w,omitempty"`
	From      string      `json:"position_from"` // coordinates, or locator
	Locator   string      `json:"locator,omitempty"`
	Radius    int         `json:"uncertainty_m,omitempty"`
	Note      string      `json:"uncertainty,omitempty"`
}

// GeoJSON writes places as a FeatureCollection: a Point a repeater, and for one that
// stands somewhere in the cell of a locator the cell as a Polygon, counterclockwise. The
// error is that of w.
func GeoJSON(w io.Writer, places []Place) error {
	c := collection{Type: "FeatureCollection", Features: []feature{}}
	for _, p := range places {
		c.Features = append(c.Features, feature{
			Type: "Feature", ID: "repeater/" + p.Repeater.Key.V, Properties: propertiesOf(p, "repeater"),
			Geometry: geometry{"Point", position(p.At)},
		})
		if p.Locator != "" {
			c.Features = append(c.Features, feature{
				Type: "Feature", ID: "cell/" + p.Repeater.Key.V, Properties: propertiesOf(p, "cell"),
				Geometry: geometry{"Polygon", [][][2]json.Number{ring(p)}},
			})
		}
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(c)
}

// position gives longitude and latitude, in this order.
func position(p signal.Position) [2]json.Number {
	return [2]json.Number{json.Number(p.Lon.String()), json.Number(p.Lat.String())}
}

// ring goes once around a cell, counterclockwise, and ends where it began.
func ring(p Place) [][2]json.Number {
	sw, ne := p.corners()
	return [][2]json.Number{
		position(sw), position(signal.Position{Lat: sw.Lat, Lon: ne.Lon}), position(ne),
		position(signal.Position{Lat: ne.Lat, Lon: sw.Lon}), position(sw),
	}
}

func propertiesOf(p Place, kind string) properties {
	r := p.Repeater
	all := properties{Kind: kind, Repeater: r.Key.V, Label: r.Called(), Callsign: string(r.Callsign.Or("")), From: "coordinates"}
	if p.Locator != "" {
		all.From, all.Locator, all.Radius, all.Note = "locator", string(p.Locator), p.Radius, p.Uncertainty()
	}
	if r.Output.IsSet() {
		all.Output = json.Number(r.Output.V.String())
	}
	if in := r.TransmitOn(); in != 0 {
		all.Input = json.Number(in.String())
	}
	if r.FM.ToneSend.IsSet() {
		all.Tone = r.FM.ToneSend.V.String()
	}
	if r.DMR.ColorCode.IsSet() {
		code := int(r.DMR.ColorCode.V)
		all.ColorCode = &code
	}
	if r.Site.Height.IsSet() {
		all.Height = number(r.Site.Height.V)
	}
	if r.Site.ERP.IsSet() {
		all.ERP = number(r.Site.ERP.V)
	}
	return all
}

// number gives a quantity as a plan writes it.
func number(v interface{ MarshalText() ([]byte, error) }) json.Number {
	text, _ := v.MarshalText() // never fails for these
	return json.Number(text)
}
