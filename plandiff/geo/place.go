package geo

import (
	"math"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// A Place is where a repeater stands.
type Place struct {
	Repeater *plan.Repeater
	At       signal.Position // rounded to what it is worth
	Decimals int             // of the degrees of At

	// Locator is what At is the center of, where the plan gives no coordinates; the
	// true place is no farther off than HalfLat and HalfLon, or Radius in m.
	Locator          signal.Grid
	HalfLat, HalfLon signal.MicroDegrees
	Radius           int
}

// exactDecimals are those of coordinates: a hundred-thousandth of a degree is 1.1 m, and
// nothing that a plan is for needs to know a site better (RFC 7946 section 11.2 warns of
// decimals without worth).
const exactDecimals = 5

// Places gives the places of the repeaters of a plan, in the order of their keys, and
// those that have none.
func Places(p *plan.Plan) (places []Place, nowhere []*plan.Repeater) {
	for _, r := range p.Repeaters.Sorted() {
		switch s := r.Site; {
		case s.Lat.IsSet() && s.Lon.IsSet():
			at := signal.Position{Lat: s.Lat.V, Lon: s.Lon.V}
			places = append(places, Place{Repeater: r, At: rounded(at, exactDecimals), Decimals: exactDecimals})
		case s.Grid.IsSet():
			places = append(places, inCell(r, s.Grid.V))
		default:
			nowhere = append(nowhere, r)
		}
	}
	return places, nowhere
}

// inCell puts a repeater in the middle of the cell of its locator.
func inCell(r *plan.Repeater, grid signal.Grid) Place {
	center, halfLat, halfLon := grid.Center()
	decimals := cellDecimals(halfLat)
	off := stepOf(decimals)/2 + 1 // what rounding may add
	return Place{
		Repeater: r, At: rounded(center, decimals), Decimals: decimals,
		Locator: grid, HalfLat: halfLat, HalfLon: halfLon, Radius: radius(center.Lat, halfLat+off, halfLon+off),
	}
}

// cellDecimals are as many as keep the center within a tenth of half the cell.
func cellDecimals(half signal.MicroDegrees) int {
	decimals := 1
	for decimals < 6 && stepOf(decimals) > half/10 {
		decimals++
	}
	return decimals
}

// metersPerDegree of a meridian, on a sphere of 6371 km, the mean radius of the earth
// (IUGG 1980).
const metersPerDegree = 111_195

// radius is how far the corner of a cell is from its center, in m, rounded up to two
// figures, so that it promises no more than it knows.
func radius(lat, halfLat, halfLon signal.MicroDegrees) int {
	nearEquator := math.Max(0, math.Abs(lat.Degrees())-halfLat.Degrees()) // where the cell is widest
	north := halfLat.Degrees() * metersPerDegree
	east := halfLon.Degrees() * metersPerDegree * math.Cos(nearEquator*math.Pi/180)
	far := math.Hypot(north, east)
	step := math.Pow(10, math.Floor(math.Log10(far))-1)
	return int(math.Ceil(far/step) * step)
}

// rounded gives a position to so many decimals of a degree, without a float.
func rounded(p signal.Position, decimals int) signal.Position {
	step := stepOf(decimals)
	return signal.Position{Lat: nearest(p.Lat, step), Lon: nearest(p.Lon, step)}
}

// stepOf gives what the last of so many decimals stands for.
func stepOf(decimals int) signal.MicroDegrees {
	step := signal.MicroDegrees(1)
	for range 6 - decimals {
		step *= 10
	}
	return step
}

func nearest(d, step signal.MicroDegrees) signal.MicroDegrees {
	if d < 0 {
		return -nearest(-d, step)
	}
	return (d + step/2) / step * step
}

// corners of the cell around a place, south-west first.
func (p Place) corners() (southWest, northEast signal.Position) { return p.Locator.Bounds() }
