package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

// EIRPPerERP is how much more EIRP is than ERP, as the exposure rules have it (OET Bulletin 65, 47
// CFR 1.1307).
const EIRPPerERP = 1.64

// Ground is how much a reflection from the ground raises power density (OET Bulletin 65).
type Ground float64

// The cases of OET Bulletin 65.
const (
	FreeSpace      Ground = 1
	TypicalGround  Ground = 2.56 // the field is 1.6 times that of free space
	FullReflection Ground = 4
)

// PowerDensity returns the power density in W/m2 in the main beam, in the far field:
// g EIRP / (4 pi R^2), with EIRP averaged over time (OET Bulletin 65). A distance of 0 gives infinity.
func PowerDensity(eirpWatts, distanceM float64, g Ground) float64 {
	return float64(g) * math.Max(eirpWatts, 0) / (4 * math.Pi * distanceM * distanceM)
}

// LimitDistance returns in meters how far from the antenna, in its main beam, power density falls to a
// limit: PowerDensity the other way round. A limit of 0 gives infinity.
func LimitDistance(eirpWatts, limitWattsPerM2 float64, g Ground) float64 {
	return math.Sqrt(float64(g) * math.Max(eirpWatts, 0) / (4 * math.Pi * limitWattsPerM2))
}

// Together returns the distance for several transmitters at one antenna, from the distance of each:
// their shares of the limits add up, so the squares do.
func Together(distancesM ...float64) float64 {
	total := 0.0
	for _, d := range distancesM {
		total = math.Hypot(total, d)
	}
	return total
}

// Transmission is what exposure arithmetic needs of a transmitter.
type Transmission struct {
	Frequency signal.Hertz
	ERPWatts  float64 // over a dipole, while it sends
	Duty      float64 // share of time that it sends, 0 to 1; a repeater counts as 1 unless it was measured
}

// ExposureNotice goes with every figure of this part, wherever it is printed.
const ExposureNotice = "this is arithmetic for the main beam, not an evaluation: other transmitters of the site add to it, and the licensee must evaluate"

// Exposure is the arithmetic for one transmitter. It clears nobody: see ExposureNotice.
type Exposure struct {
	PublicM       float64 // where power density falls to the limit for the public
	OccupationalM float64 // the same for those who know of it and control it; 0 where the rule has no figure
	Public        Limit
	Occupational  Limit

	// ExemptM is the distance from which on, if nobody comes nearer, US rules ask for no evaluation
	// (47 CFR 1.1307(b)(3)(i)); 0 where the rule has no such exemption, or its figure was not read (below
	// 30 MHz). The limits hold all the same.
	ExemptM float64
}

// Expose does the arithmetic for a transmitter under a rule of ExposureRules, with a typical ground.
// A duty outside 0 to 1 and an ERP below 0 are a *RangeError; an unknown rule or a frequency
// outside it is an error that says so.
func Expose(rule string, t Transmission) (Exposure, error) {
	err := inRange("exposure arithmetic",
		bound{"a duty", t.Duty, 0, 1, "of the time"},
		bound{"an ERP", t.ERPWatts, 0, 1e9, "W"})
	if err != nil {
		return Exposure{}, err
	}
	var e Exposure
	if e.Public, err = ExposureLimit(rule, Public, t.Frequency); err != nil {
		return Exposure{}, err
	}
	eirp := EIRPPerERP * t.ERPWatts * t.Duty
	e.PublicM = LimitDistance(eirp, e.Public.WattsPerM2, TypicalGround)
	if e.Occupational, err = ExposureLimit(rule, Occupational, t.Frequency); err == nil {
		e.OccupationalM = LimitDistance(eirp, e.Occupational.WattsPerM2, TypicalGround)
	}
	if rule == "US" {
		if exempt, err := ExemptDistance(t.Frequency, t.ERPWatts*t.Duty); err == nil {
			e.ExemptM = exempt
		}
	}
	return e, nil
}
