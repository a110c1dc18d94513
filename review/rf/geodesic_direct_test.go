package rf

import "math"

// direct goes meters from a position at an azimuth, in degrees, and returns where that ends:
// the oracle for inverse, and how tests plant stations at known distances. It integrates
// the same equations the other way, by Newton's method on the arc length.
func direct(lat1, lon1, azi1, meters float64) (lat2, lon2 float64) {
	sin1, cos1 := reduced(lat1)
	sina1, cosa1 := math.Sincos(radians(azi1))
	sin0, cos0 := sina1*cos1, math.Hypot(cosa1, sina1*sin1)
	r := ray{sin0: sin0, cos0: cos0, sigma1: math.Atan2(sin1, cosa1*cos1)}
	r.sigma2 = r.sigma1 + meters/polarM
	for range 20 {
		over := polarM*r.integrate(func(root float64) float64 { return root }) - meters
		sin := math.Sin(r.sigma2)
		r.sigma2 -= over / (polarM * math.Sqrt(1+secondEcc*cos0*cos0*sin*sin))
	}
	sin, cos := math.Sincos(r.sigma2)
	r.omega12 = math.Atan2(sin0*sin, cos) - math.Atan2(sin0*sin1, cosa1*cos1)
	sin2 := cos0 * sin
	cos2 := math.Hypot(sin0, cos0*cos)
	return degrees(math.Atan2(sin2, (1-flatness)*cos2)), math.Remainder(lon1+degrees(r.longitude()), 360)
}
