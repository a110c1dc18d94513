package page

import "strconv"

// A scale is the bar that shows how long a distance is in the picture.
type scale struct {
	X, Y, W string
	Text    string
	TextX   string
	TextY   string
}

// scaleOf gives a bar of a round number of kilometers, about a fifth of the picture long.
func scaleOf(p *projection) scale {
	km := 1.0
	for _, next := range []float64{2, 5, 10, 20, 50, 100, 200, 500, 1_000, 2_000, 5_000} {
		if next*1_000*p.scale <= mapWidth/5 {
			km = next
		}
	}
	const metersPerMile = 1_609.344 // the international mile, exact
	width := km * 1_000 * p.scale
	miles := strconv.FormatFloat(km*1_000/metersPerMile, 'f', 1, 64)
	x, y := mapWidth-width-18, p.height-22
	return scale{X: unit(x), Y: unit(y), W: unit(width), Text: strconv.FormatFloat(km, 'f', -1, 64) + " km · " + miles + " mi", TextX: unit(x + width), TextY: unit(y - 6)}
}
