package page

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"

	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

// metersPerDegree is less than a degree of latitude has anywhere on WGS 84 (110.57 km at the
// equator), so that nothing nearer is passed over.
const metersPerDegree = 110_500

// neighbors gives each of some stations the nearest of all. It looks north and south of it
// until the latitude alone is farther than what it has found.
func neighbors(all, of []*station) {
	byLat := slices.Clone(all)
	slices.SortStableFunc(byLat, func(a, b *station) int { return cmp.Compare(a.Place.At.Lat, b.Place.At.Lat) })
	for _, st := range of {
		st.nearest(byLat)
	}
}

func (st *station) nearest(byLat []*station) {
	best := math.Inf(1)
	look := func(o *station) bool {
		apart := math.Abs((o.Place.At.Lat - st.Place.At.Lat).Degrees()) * metersPerDegree
		if apart > best {
			return false
		}
		if o == st || o.State == "went" && st.State != "went" {
			return true
		}
		if way := rf.Geodesic(st.Place.At, o.Place.At); way.Meters < best {
			best = way.Meters
			st.Near, st.Distance, st.Bearing = o, distance(st, o), bearing(way)
		}
		return true
	}
	at := sort.Search(len(byLat), func(i int) bool { return byLat[i].Place.At.Lat >= st.Place.At.Lat })
	tries := 0
	for i := at; i < len(byLat) && tries < mostTries && look(byLat[i]); i++ {
		tries++
	}
	for i := at - 1; i >= 0 && tries < 2*mostTries && look(byLat[i]); i-- {
		tries++
	}
}

// mostTries bounds how many stations of nearly one latitude are looked at for one.
const mostTries = 2_000

// distance writes how far two stations are apart; a locator leaves room.
func distance(a, b *station) string {
	d := rf.Distance(a.Place, b.Place)
	if d.Certain() {
		return kilometers(d.Least) + " km"
	}
	return kilometers(d.Least) + " to " + kilometers(d.Most) + " km"
}

// kilometers writes meters, finer where that is little.
func kilometers(meters float64) string {
	if meters < 9_950 {
		return strconv.FormatFloat(meters/1_000, 'f', 1, 64)
	}
	return strconv.FormatFloat(meters/1_000, 'f', 0, 64)
}

// bearing writes a direction as degrees and one of eight winds.
func bearing(way rf.Path) string {
	if way.Meters < 1 {
		return "the same place"
	}
	winds := [...]string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}
	return fmt.Sprintf("%03.0f° %s", math.Mod(math.Round(way.Bearing), 360), winds[int(math.Round(way.Bearing/45))%8])
}

// coordinates writes a position with its hemispheres.
func coordinates(p signal.Position) string {
	return angle(p.Lat, "N", "S") + " " + angle(p.Lon, "E", "W")
}

func angle(d signal.MicroDegrees, above, below string) string {
	if d < 0 {
		return (-d).String() + "° " + below
	}
	return d.String() + "° " + above
}
