package geo

import (
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"passband.example/plandiff/signal"
)

// The names of GPX 1.1: its namespace, and where its schema is published.
const (
	gpxSpace  = "http://www.topografix.com/GPX/1/1"
	gpxSchema = gpxSpace + " " + gpxSpace + "/gpx.xsd"
)

// gpx is a GPX 1.1 document. The order of the fields is that of the schema.
type gpx struct {
	XMLName  xml.Name `xml:"gpx"`
	Space    string   `xml:"xmlns,attr"`
	Instance string   `xml:"xmlns:xsi,attr"`
	Schema   string   `xml:"xsi:schemaLocation,attr"`
	Version  string   `xml:"version,attr"`
	Creator  string   `xml:"creator,attr"`
	Name     string   `xml:"metadata>name"`
	Points   []point  `xml:"wpt"`
}

type point struct {
	Lat     string `xml:"lat,attr"`
	Lon     string `xml:"lon,attr"`
	Name    string `xml:"name"`
	Comment string `xml:"cmt,omitempty"`
	Desc    string `xml:"desc,omitempty"`
	Type    string `xml:"type"`
}

// GPX writes places as waypoints of a GPX 1.1 file with a title. The error is that of w.
func GPX(w io.Writer, title string, places []Place) error {
	doc := gpx{
		Space: gpxSpace, Instance: "http://www.w3.org/2001/XMLSchema-instance", Schema: gpxSchema,
		Version: "1.1", Creator: "passband", Name: title,
	}
	for _, p := range places {
		doc.Points = append(doc.Points, point{
			Lat: p.At.Lat.String(), Lon: beforeDateLine(p.At.Lon).String(),
			Name: p.Repeater.Called(), Comment: p.Uncertainty(), Desc: description(p), Type: "repeater",
		})
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	e := xml.NewEncoder(w)
	e.Indent("", "  ")
	if err := e.Encode(doc); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}

// beforeDateLine gives a longitude as GPX 1.1 has it: -180 up to, and not with, 180.
func beforeDateLine(lon signal.MicroDegrees) signal.MicroDegrees {
	if lon == 180_000_000 {
		return -lon
	}
	return lon
}

// Uncertainty says how far off the true place may be, or "" where coordinates are known.
func (p Place) Uncertainty() string {
	if p.Locator == "" {
		return ""
	}
	return fmt.Sprintf("somewhere in %s: up to %s from this point", p.Locator, distance(p.Radius))
}

func distance(meters int) string {
	if meters < 1000 {
		return fmt.Sprintf("%d m", meters)
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", float64(meters)/1000), ".0") + " km"
}

// description says what a radio needs to use the repeater.
func description(p Place) string {
	r := p.Repeater
	var words []string
	add := func(format string, args ...any) { words = append(words, fmt.Sprintf(format, args...)) }
	if r.Callsign.IsSet() {
		add("%s", r.Callsign.V)
	}
	if r.Output.IsSet() {
		add("output %s MHz", r.Output.V)
	}
	if in := r.TransmitOn(); in != 0 {
		add("input %s MHz", in)
	}
	if r.FM.ToneSend.IsSet() {
		add("tone %s", r.FM.ToneSend.V)
	}
	if r.DMR.ColorCode.IsSet() {
		add("color code %s", r.DMR.ColorCode.V)
	}
	return strings.Join(words, ", ")
}
