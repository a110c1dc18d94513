package rf

import "math"

// ecef returns the earth-centered, earth-fixed coordinates of a position on the ellipsoid, in
// meters. The straight line between two of them is never longer than the way over the
// ground and at 200 km only 8 m shorter, so it is a sieve for distances that misses nothing
// and costs no trigonometry a pair.
func ecef(lat, lon float64) [3]float64 {
	sinLat, cosLat := math.Sincos(radians(lat))
	sinLon, cosLon := math.Sincos(radians(lon))
	const e2 = flatness * (2 - flatness)
	normal := equatorM / math.Sqrt(1-e2*sinLat*sinLat)
	return [3]float64{normal * cosLat * cosLon, normal * cosLat * sinLon, normal * (1 - e2) * sinLat}
}

// distance3 returns the straight line between two points in meters.
func distance3(a, b [3]float64) float64 {
	x, y, z := a[0]-b[0], a[1]-b[1], a[2]-b[2]
	return math.Sqrt(x*x + y*y + z*z)
}
