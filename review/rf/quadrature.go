package rf

import (
	"math"
	"sync"
)

// A node is one place of Gauss-Legendre quadrature on -1 to 1.
type node struct{ at, weight float64 }

// quadratureOrder is enough for every integrand of a geodesic: their Fourier series fall by a
// factor of about 1000 a term on the earth, and 16 places take in more terms than a
// float64 can show.
const quadratureOrder = 16

// quadrature returns the places and weights: the roots of the Legendre polynomial, by Newton's
// method (Abramowitz and Stegun 25.4.29).
var quadrature = sync.OnceValue(func() []node {
	nodes := make([]node, quadratureOrder)
	for i := range nodes {
		x := math.Cos(math.Pi * (float64(i) + 0.75) / (quadratureOrder + 0.5))
		var slope float64
		for range 8 {
			var value float64
			value, slope = legendre(x)
			x -= value / slope
		}
		nodes[i] = node{at: x, weight: 2 / ((1 - x*x) * slope * slope)}
	}
	return nodes
})

// legendre returns the Legendre polynomial of quadratureOrder and its slope.
func legendre(x float64) (value, slope float64) {
	before, value := 1.0, x
	for n := 2.0; n <= quadratureOrder; n++ {
		before, value = value, ((2*n-1)*x*value-(n-1)*before)/n
	}
	return value, quadratureOrder * (x*value - before) / (x*x - 1)
}
