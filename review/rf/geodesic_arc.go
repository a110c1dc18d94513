package rf

import "math"

// An arc is the family of geodesics that start at one latitude and end at another, as seen on
// the auxiliary sphere, where a geodesic is a great circle. Sines and cosines are those of
// the reduced latitudes; the first is south and the farther from the equator.
type arc struct {
	sin1, cos1, sin2, cos2 float64
}

// tiny stands for zero where a sine or cosine must keep its sign: a line from the equator to
// the equator must know that it leaves it southward.
const tiny = 1e-150

func newArc(lat1, lat2 float64) arc {
	var g arc
	g.sin1, g.cos1 = reduced(lat1)
	g.sin2, g.cos2 = reduced(lat2)
	g.sin1 = math.Min(g.sin1, -tiny)
	return g
}

// reduced returns sine and cosine of the reduced latitude.
func reduced(lat float64) (sin, cos float64) {
	sin, cos = math.Sincos(radians(lat))
	sin *= 1 - flatness
	norm := math.Hypot(sin, cos)
	if math.Abs(lat) == 90 {
		cos = tiny
	}
	return sin / norm, math.Max(cos/norm, tiny)
}

// A ray is the one geodesic of an arc that leaves at an azimuth.
type ray struct {
	sin0, cos0     float64 // of the azimuth at the equator
	sigma1, sigma2 float64 // arc lengths from the equator, on the sphere
	omega12        float64 // difference of longitude on the sphere
}

// ray follows the geodesic that leaves so many radians south of east, up to the second
// latitude on its way north (equations 5, 11 to 13 and 45). Counted from east, the angle
// keeps all its digits on short lines near the equator, where they decide.
func (g arc) ray(turn float64) ray {
	sina1, cosa1 := sincosAzimuth(turn)
	sin0 := sina1 * g.cos1
	c1, c2 := cosa1*g.cos1, g.northward(cosa1)
	r := ray{sin0: sin0, cos0: math.Hypot(cosa1, sina1*g.sin1)}
	r.sigma1, r.sigma2 = math.Atan2(g.sin1, c1), math.Atan2(g.sin2, c2)
	r.omega12 = math.Atan2(sin0*g.sin2, c2) - math.Atan2(sin0*g.sin1, c1)
	return r
}

func sincosAzimuth(turn float64) (sin, cos float64) {
	sin, cos = math.Sincos(turn)
	return cos, -sin
}

// northward returns cos(azimuth) cos(latitude) at the second point; its square differs from
// that at the first by as much as the squares of the latitudes' cosines do. Near a pole
// the difference of the sines would lose digits.
func (g arc) northward(cosa1 float64) float64 {
	between := (g.sin1 - g.sin2) * (g.sin1 + g.sin2)
	if g.cos1 < -g.sin1 {
		between = (g.cos2 - g.cos1) * (g.cos2 + g.cos1)
	}
	c1 := cosa1 * g.cos1
	return math.Sqrt(math.Max(c1*c1+between, 0))
}

// longitude returns the difference of longitude along a ray (equation 8).
func (r ray) longitude() float64 {
	return r.omega12 - flatness*r.sin0*r.integrate(func(root float64) float64 {
		return (2 - flatness) / (1 + (1-flatness)*root)
	})
}

// integrate adds up f(sqrt(1 + k^2 sin^2 sigma)) along the ray.
func (r ray) integrate(f func(root float64) float64) float64 {
	k2 := secondEcc * r.cos0 * r.cos0
	middle, half := (r.sigma1+r.sigma2)/2, (r.sigma2-r.sigma1)/2
	sum := 0.0
	for _, node := range quadrature() {
		sin := math.Sin(middle + half*node.at)
		sum += node.weight * f(math.Sqrt(1+k2*sin*sin))
	}
	return sum * half
}

// length returns the meters along a ray (equation 7).
func (r ray) length() float64 {
	return polarM * r.integrate(func(root float64) float64 { return root })
}

// azimuths returns the azimuths at both ends of the ray, in radians.
func (g arc) azimuths(turn float64) (a1, a2 float64) {
	sina1, cosa1 := sincosAzimuth(turn)
	return turn + math.Pi/2, math.Atan2(sina1*g.cos1, g.northward(cosa1))
}

// solve returns the turn from east at the first point whose ray ends lon12 radians farther east, 0
// to pi. The longitude grows with the turn all the way (Karney, section 4), from 0 due north to
// pi over the south pole, so the root always stays between two bounds.
func (g arc) solve(lon12 float64) (turn float64) {
	const north, south = -math.Pi / 2, math.Pi / 2
	switch {
	case lon12 <= 0:
		return north
	case lon12 >= math.Pi:
		return south
	}
	onSphere := math.Atan2(g.cos2*math.Sin(lon12), g.cos1*g.sin2-g.sin1*g.cos2*math.Cos(lon12)) - math.Pi/2
	return between(north, -lon12, south, math.Pi-lon12, onSphere, func(turn float64) float64 {
		return g.ray(turn).longitude() - lon12
	})
}
