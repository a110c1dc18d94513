package survey

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

// A Party is one of the two stations of a conflict, or one that shares a site.
type Party struct {
	Name     string         // how a finding calls it: the key of the repeater, or callsign and label of a neighbor
	Repeater *plan.Repeater // of the plan; nil for a neighbor
	Neighbor *plan.Neighbor // of the neighbor list
	Place    *rf.Place      // nil where it is not known

	Before bool // the row of the neighbor is one of the base that the change took out
}

// At gives where the plan says that there is such a station; for a row that the change took out
// there is no place.
func (p Party) At() plan.Place {
	switch {
	case p.Repeater != nil:
		return p.Repeater.Place()
	case p.Before:
		return plan.Place{}
	}
	return p.Neighbor.Place()
}

// ofNeighbor gives a row of the neighbor list.
func ofNeighbor(p *plan.Plan, n *plan.Neighbor) (Party, rf.Station) {
	party := Party{Name: n.Called(), Neighbor: n, Place: placeOf(n.Lat, n.Lon, n.Grid), Before: !p.Lists(n)}
	station := rf.Station{
		Name: party.Name, Callsign: n.Callsign.Or(""), Place: party.Place,
		Output: n.Output.Or(0), Input: n.Input.Or(0), Tone: n.Tone.Or(signal.Tone{}),
		DMR: n.ColorCode.IsSet(), ColorCode: n.ColorCode.Or(0),
	}
	station.FM = n.Tone.IsSet() || !station.DMR
	return party, station
}

// ofRepeater gives a repeater of the plan, and as others on the air notice it.
func ofRepeater(r *plan.Repeater) (Party, rf.Station) {
	p := Party{Name: r.Key.V, Repeater: r, Place: PlaceOf(r)}
	station := rf.Station{
		Name: p.Name, Callsign: r.Callsign.Or(""), Ours: true, Place: p.Place,
		Output: r.Output.Or(0), Input: r.TransmitOn(),
		FM: r.FM.Present.Or(false), Tone: r.FM.ToneSend.Or(signal.Tone{}),
	}
	if r.DMR.Present.Or(false) && r.DMR.ColorCode.IsSet() {
		station.DMR, station.ColorCode = true, r.DMR.ColorCode.V
	}
	return p, station
}

// PlaceOf gives where a repeater stands: its coordinates, or else the cell of its locator; nil
// where the plan says neither.
func PlaceOf(r *plan.Repeater) *rf.Place { return placeOf(r.Site.Lat, r.Site.Lon, r.Site.Grid) }

func placeOf(lat, lon plan.Value[signal.MicroDegrees], grid plan.Value[signal.Grid]) *rf.Place {
	switch {
	case lat.IsSet() && lon.IsSet():
		return &rf.Place{At: signal.Position{Lat: lat.V, Lon: lon.V}}
	case grid.IsSet():
		place := rf.PlaceOf(grid.V)
		return &place
	}
	return nil
}

// ParsePlace reads a place as a person writes it: latitude and longitude in degrees with a comma
// between them, or a locator.
func ParsePlace(written string) (rf.Place, error) {
	lat, lon, coordinates := strings.Cut(written, ",")
	if !coordinates {
		grid, err := signal.ParseGrid(strings.TrimSpace(written))
		if err != nil {
			return rf.Place{}, fmt.Errorf("%.40q is no repeater of the plan and no place; write latitude and longitude, as in 40.1,-104.2, or a locator, as in DN70vc", written)
		}
		return rf.PlaceOf(grid), nil
	}
	var at signal.Position
	var err error
	if at.Lat, err = signal.ParseLatitude(strings.TrimSpace(lat)); err != nil {
		return rf.Place{}, err
	}
	if at.Lon, err = signal.ParseLongitude(strings.TrimSpace(lon)); err != nil {
		return rf.Place{}, err
	}
	return rf.Place{At: at}, nil
}
