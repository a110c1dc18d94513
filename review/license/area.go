package license

import (
	"math"
	"sort"
)

const (
	earthKm     = 6371.0088 // mean radius of the earth, IUGG
	kmPerDegree = earthKm * math.Pi / 180
)

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

// A box lies between two parallels and two meridians, with a belt around it. Without size
// it is a circle.
type box struct {
	south, north, west, east float64 // degrees
	belt                     float64 // km
}

func (b box) holds(lat, lon float64) bool {
	nearLat, nearLon := min(max(lat, b.south), b.north), min(max(lon, b.west), b.east)
	return kilometers(lat, lon, nearLat, nearLon) <= b.belt
}

// kilometers returns the great-circle distance, by the haversine formula.
func kilometers(lat1, lon1, lat2, lon2 float64) float64 {
	rise, run := math.Sin(radians(lat2-lat1)/2), math.Sin(radians(lon2-lon1)/2)
	h := rise*rise + math.Cos(radians(lat1))*math.Cos(radians(lat2))*run*run
	return 2 * earthKm * math.Asin(math.Sqrt(min(h, 1)))
}

// A leg is how a line runs from one point to the next.
type leg uint8

const (
	greatCircle leg = iota
	parallel
	meridian
	end
)

var legNames = names[leg]{"circle", "parallel", "meridian", "end"}

type vertex struct {
	lat, lon float64
	next     leg
}

// A line runs from west to east; what lies north of it is inside. Beyond its ends it goes on
// along the parallel of its last point: the cautious reading, since Line A ends at the sea
// and everything past it lies toward Canada.
type line []vertex

func (l line) holds(lat, lon float64) bool { return lat > l.latitude(lon) }

// latitude returns where the line crosses a meridian, the southern end of a leg that runs
// along it.
func (l line) latitude(lon float64) float64 {
	i := sort.Search(len(l), func(i int) bool { return l[i].lon >= lon })
	switch {
	case i == 0:
		return l[0].lat
	case i == len(l):
		return l[len(l)-1].lat
	}
	a, b := l[i-1], l[i]
	if a.next == parallel || a.lon == b.lon {
		return a.lat
	}
	return crossing(a, b, lon)
}

// crossing returns the latitude at which the great circle through a and b crosses a
// meridian between them.
func crossing(a, b vertex, lon float64) float64 {
	rise := math.Tan(radians(a.lat))*math.Sin(radians(b.lon-lon)) + math.Tan(radians(b.lat))*math.Sin(radians(lon-a.lon))
	return math.Atan(rise/math.Sin(radians(b.lon-a.lon))) * 180 / math.Pi
}
