package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

// exemptAlwaysWatts is what 47 CFR 1.1307(b)(3)(i)(A) exempts at any distance.
const exemptAlwaysWatts = 0.001

// exemptPerM2 returns the factor of 47 CFR 1.1307(b)(3)(i)(C) Table 1: up to so many watts ERP a square
// meter of distance are exempt.
func exemptPerM2(f signal.Hertz) (float64, error) {
	err := inRange("the exemption of 47 CFR 1.1307(b)(3)", bound{"a frequency", mhz(f), 30, 1500, "MHz"})
	if err != nil {
		return 0, err
	}
	if mhz(f) <= 300 {
		return 3.83, nil
	}
	return 0.0128 * mhz(f), nil
}

// NearestExempt returns in meters the least distance at which the exemption by distance holds:
// wavelength/(2 pi), 47.7 m over the frequency in MHz.
func NearestExempt(f signal.Hertz) float64 { return lightMps / (2 * math.Pi * float64(f)) }

// ExemptWatts returns the largest ERP in W, averaged over time, for which US rules ask for no evaluation
// if nobody comes nearer than so many meters (47 CFR 1.1307(b)(3)(i)(A) and (C)): 3.83 R^2 from 30 to
// 300 MHz, 0.0128 R^2 f above. Nearer than NearestExempt only 1 mW is, by these two paragraphs; see
// ExemptNearWatts for the third. Outside 30 to 1500 MHz it is a *RangeError.
//
// Exempt from evaluating is not exempt from the limit.
func ExemptWatts(f signal.Hertz, distanceM float64) (watts float64, err error) {
	factor, err := exemptPerM2(f)
	if err != nil {
		return 0, err
	}
	if !(distanceM >= NearestExempt(f)) {
		return exemptAlwaysWatts, nil
	}
	return math.Max(factor*distanceM*distanceM, exemptAlwaysWatts), nil
}

// ExemptDistance returns the distance in meters from which on an ERP in W, averaged over time, is exempt:
// ExemptWatts the other way round. It is 0 up to 1 mW.
func ExemptDistance(f signal.Hertz, erpWatts float64) (meters float64, err error) {
	factor, err := exemptPerM2(f)
	if err != nil || erpWatts <= exemptAlwaysWatts {
		return 0, err
	}
	return math.Max(math.Sqrt(erpWatts/factor), NearestExempt(f)), nil
}

// ExemptNearWatts returns the threshold in W of the third way, 47 CFR 1.1307(b)(3)(i)(B), for people 0.5 to
// 40 cm from an antenna from 300 to 1500 MHz: the larger of ERP and available power, averaged over
// time, must not be above it. It is for hand-held sets, not for sites. Outside it is a *RangeError.
//
//	2.04 f (R / 20 cm)^x W with f in GHz, x = -log10(60 / (2040 f sqrt(f))); 2.04 f from 20 cm on
func ExemptNearWatts(f signal.Hertz, distanceM float64) (watts float64, err error) {
	err = inRange("the exemption of 47 CFR 1.1307(b)(3)(i)(B)",
		bound{"a frequency", mhz(f), 300, 1500, "MHz"},
		bound{"a distance", distanceM, 0.005, 0.40, "m"})
	if err != nil {
		return 0, err
	}
	ghz := mhz(f) / 1000
	at20cm := 2040 * ghz // mW
	x := -math.Log10(60 / (at20cm * math.Sqrt(ghz)))
	return at20cm * math.Pow(math.Min(distanceM/0.20, 1), x) / 1000, nil
}
