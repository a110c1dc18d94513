package report

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// site says where a repeater stands, and what the plan tells of its station.
func (s *shower) site(r *plan.Repeater) {
	at := r.Site
	parts := placed(at.Grid, at.Lat, at.Lon)
	add := func(is bool, format string, value any) {
		if is {
			parts = append(parts, fmt.Sprintf(format, value))
		}
	}
	add(at.Height.IsSet(), "antenna %s above ground", at.Height.V)
	add(at.Output.IsSet(), "transmitter %s", at.Output.V)
	add(at.ERP.IsSet(), "%s ERP", at.ERP.V)
	add(at.People.IsSet(), "people as near as %s", at.People.V)
	if len(parts) > 0 {
		s.point("Site", text("%s", strings.Join(parts, ", ")))
	}
}

// placed writes a place as the plan says it, most exact first.
func placed(grid plan.Value[signal.Grid], lat, lon plan.Value[signal.MicroDegrees]) (parts []string) {
	if lat.IsSet() && lon.IsSet() {
		parts = append(parts, fmt.Sprintf("latitude %s, longitude %s", lat.V, lon.V))
	}
	if grid.IsSet() {
		parts = append(parts, fmt.Sprintf("grid square %s", grid.V))
	}
	return parts
}

// remarks gives what coordinators remarked about a repeater, where it is named as one or the other.
func (s *shower) remarks(r *plan.Repeater) {
	for _, c := range s.x.Plan.Coordinations.Sorted() {
		with := c.With.Or("")
		mine := c.Repeater.Or("") == r.Key.V
		if !mine && with != r.Key.V && (with == "" || !strings.EqualFold(with, string(r.Callsign.Or("")))) {
			continue
		}
		other := with
		if !mine {
			other = c.Repeater.Or("")
		}
		if other != "" {
			other = ", with " + other
		}
		s.point("Coordination"+other, Line{text("%s", c.By.Or("somebody")), text(" on %s: ", c.Date.V), text("%s", c.Text.V)}.and(at(s.d.place(c.Place()))...)...)
	}
}

// neighbor explains a row of the neighbor list.
func (s *shower) neighbor(n *plan.Neighbor) {
	s.headed(n.Called(), "a neighbor, which others answer for", n)
	if n.Output.IsSet() {
		s.point("Output", text("%s", megahertz(n.Output.V)))
	}
	if n.Input.IsSet() {
		s.point("Input", text("%s", megahertz(n.Input.V)))
	}
	if n.Tone.IsSet() {
		s.point("FM", text("%s", toneName(n.Tone.V)))
	}
	if n.ColorCode.IsSet() {
		s.point("DMR", text("color code %s", n.ColorCode.V))
	}
	if at := placed(n.Grid, n.Lat, n.Lon); len(at) > 0 {
		s.point("Site", text("%s", strings.Join(at, ", ")))
	}
	if n.Source.IsSet() {
		said := n.Source.V
		if n.Date.IsSet() {
			said += ", " + n.Date.V.String()
		}
		s.point("Told by", text("%s", said))
	}
	s.p.item(0, text("No radio holds it. The review looks whether the plan's repeaters stand far enough from it."))
}
