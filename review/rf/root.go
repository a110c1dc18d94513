package rf

import "math"

// between returns where f is zero, given two places with values of opposite sign and a first
// guess. It is T. R. Chandrupatla's method (Advances in Engineering Software 28 (1997)
// 145): inverse quadratic steps where they are trusted, halving elsewhere, so it ends
// at the last bit whatever f is.
func between(x2, f2, x1, f1, guess float64, f func(float64) float64) float64 {
	t := math.Min(math.Max((guess-x1)/(x2-x1), 0), 1)
	for range 200 {
		x3, f3 := x1, f1
		x1 += t * (x2 - x1)
		f1 = f(x1)
		if (f1 < 0) != (f3 < 0) {
			x3, f3, x2, f2 = x2, f2, x3, f3
		}
		best := x1
		if math.Abs(f2) < math.Abs(f1) {
			best = x2
		}
		least := 2e-16 * math.Abs(best) / math.Abs(x2-x1)
		if f1 == 0 || f2 == 0 || !(least < 0.5) {
			return best
		}
		t = math.Min(math.Max(step(x1, f1, x2, f2, x3, f3), least), 1-least)
	}
	return x1
}

// step returns how far to go from x1 toward x2: by inverse quadratic interpolation where
// the three points are close enough to a parabola, else half way.
func step(x1, f1, x2, f2, x3, f3 float64) float64 {
	xi, phi := (x1-x2)/(x3-x2), (f1-f2)/(f3-f2)
	if !(phi*phi < xi && (1-phi)*(1-phi) < 1-xi) {
		return 0.5
	}
	return f1/(f2-f1)*f3/(f2-f3) + (x3-x1)/(x2-x1)*f1/(f3-f1)*f2/(f3-f2)
}
