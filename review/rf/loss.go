package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

const (
	lightMps  = 299_792_458.0 // speed of light, exact (SI)
	footM     = 0.3048        // exact
	mileM     = 1609.344      // exact
	earthM    = 6_371_000.0   // mean radius
	effective = 4.0 / 3       // standard refraction: the earth seems larger by this factor
)

// RadioHorizon returns how far a smooth earth lets an antenna see, in meters, heightM above the
// ground around it, with standard refraction: sqrt(2 k R h), k = 4/3. Two stations are
// within each other's horizon when the distance is at most the sum of both. It is a
// word inside a finding, never a verdict: terrain is not in it. A height of 0 or less
// gives 0.
func RadioHorizon(heightM float64) float64 {
	return math.Sqrt(2 * effective * earthM * math.Max(heightM, 0))
}

// FreeSpaceLoss returns the loss between isotropic antennas in dB (ITU-R P.525:
// 20 log(4 pi d / wavelength)). It holds in the far field only; nearer than
// wavelength/(2 pi) it is a *RangeError.
func FreeSpaceLoss(f signal.Hertz, distanceM float64) (dB float64, err error) {
	nearM := lightMps / (2 * math.Pi * float64(max(f, 1)))
	err = inRange("free-space loss",
		bound{"a frequency", mhz(f), 0.1, 10_000, "MHz"},
		bound{"a distance", distanceM, nearM, math.MaxFloat64, "m"})
	if err != nil {
		return 0, err
	}
	return 20 * math.Log10(4*math.Pi*distanceM*float64(f)/lightMps), nil
}

// EgliLoss returns the median loss in dB over gently rolling ground (hills of about 15 m)
// between isotropic antennas at heights above the ground around them: J. J. Egli, Proc. IRE
// 45 (1957) 1383, in the form 117 + 40 log d[mi] + 20 log f[MHz] - 20 log(h1 h2 [ft^2]),
// and never below free space.
//
// It is an estimate for neighbors, not for coverage: beyond the horizon it makes signals
// too strong, by 4 to 24 dB at 100 and 160 km against the median of ITU-R P.1546-6. It
// holds for 90 to 1000 MHz (measured), up to 160 km and antennas 1 to 3000 m high
// (as far as it was compared; heights: common practice, no source). Outside it is a *RangeError.
func EgliLoss(f signal.Hertz, distanceM, height1M, height2M float64) (dB float64, err error) {
	err = inRange("Egli's loss",
		bound{"a frequency", mhz(f), 90, 1000, "MHz"},
		bound{"a distance", distanceM, 1, 160_000, "m"},
		bound{"a height", height1M, 1, 3000, "m"},
		bound{"a height", height2M, 1, 3000, "m"})
	if err != nil {
		return 0, err
	}
	free, err := FreeSpaceLoss(f, distanceM)
	if err != nil {
		return 0, err
	}
	plane := 117 + 40*math.Log10(distanceM/mileM) + 20*math.Log10(mhz(f)) - 20*math.Log10(height1M*height2M/(footM*footM))
	return math.Max(plane, free), nil
}

// mhz returns a frequency for a formula that wants MHz. The result is for losses, never to be
// made a frequency again.
func mhz(f signal.Hertz) float64 { return float64(f) / 1e6 }
