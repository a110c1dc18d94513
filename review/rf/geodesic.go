package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

// The WGS 84 ellipsoid: 1/f = 298.257223563, a in meters (NIMA TR8350.2, table 3.1).
const (
	equatorM  = 6378137.0
	flatness  = 1 / 298.257223563
	polarM    = equatorM * (1 - flatness)
	secondEcc = flatness * (2 - flatness) / ((1 - flatness) * (1 - flatness)) // e' squared
)

// Path is the shortest way between two positions over the ellipsoid.
type Path struct {
	Meters  float64
	Bearing float64 // degrees from north at the first position, 0 to 360, clockwise
	Back    float64 // degrees from north at the second position, looking back to the first
}

// Geodesic returns the shortest way from a to b on WGS 84, within a micrometer anywhere, near-
// antipodal points included. Of two equally short ways it returns one. Between equal positions
// the bearings mean nothing. A latitude beyond a pole counts as the pole.
//
// The equations are those of C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87 (2013)
// 43, section 4; the integrals are done by quadrature instead of series, and the azimuth is
// found between two bounds instead of by Newton's method alone, so that it always ends.
func Geodesic(a, b signal.Position) Path {
	s, azi1, azi2 := inverse(a.Lat.Degrees(), a.Lon.Degrees(), b.Lat.Degrees(), b.Lon.Degrees())
	return Path{Meters: s, Bearing: circle(azi1), Back: circle(azi2 + 180)}
}

// inverse returns the length in meters and the azimuths at both ends, in the direction of
// travel. All angles are in degrees.
func inverse(lat1, lon1, lat2, lon2 float64) (meters, azi1, azi2 float64) {
	lat1, lat2 = math.Max(-90, math.Min(90, lat1)), math.Max(-90, math.Min(90, lat2))
	lon12 := math.Remainder(lon2-lon1, 360)
	if lat1 == lat2 && lon12 == 0 {
		return 0, 0, 0
	}
	if lat1 == 0 && lat2 == 0 && math.Abs(lon12) <= 180*(1-flatness) {
		azi := math.Copysign(90, lon12) // the equator itself, up to where a bow beside it is shorter
		return equatorM * radians(math.Abs(lon12)), azi, azi
	}
	// The problem is turned until the first point is the one farther from the equator,
	// south of it, and the second lies east: there the longitude grows with the azimuth.
	east, swapped, north := lon12 >= 0, math.Abs(lat1) < math.Abs(lat2), false
	if swapped {
		lat1, lat2 = lat2, lat1
	}
	if lat1 > 0 {
		north, lat1, lat2 = true, -lat1, -lat2
	}
	g := newArc(lat1, lat2)
	turn := g.solve(radians(math.Abs(lon12)))
	a1, a2 := g.azimuths(turn)
	// Each turn back changes the azimuths: mirrored at the equator, traveled the other way
	// round, mirrored at the meridian.
	if swapped {
		a1, a2 = a2, a1
	}
	if north != swapped {
		a1, a2 = math.Pi-a1, math.Pi-a2
	}
	if !east {
		a1, a2 = -a1, -a2
	}
	return g.ray(turn).length(), degrees(a1), degrees(a2)
}

func radians(deg float64) float64 { return deg * (math.Pi / 180) }
func degrees(rad float64) float64 { return rad * (180 / math.Pi) }

// circle brings a bearing to 0 up to, but not including, 360 degrees.
func circle(deg float64) float64 {
	if deg = math.Mod(deg, 360); deg < 0 {
		deg += 360
	}
	if deg >= 360 {
		return 0
	}
	return deg
}
