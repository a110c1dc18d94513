package rf

import (
	"math"

	"passband.example/plandiff/signal"
)

// ServiceRadius estimates in meters how far a station serves mobiles, where the plan has no figure of
// its own: 1.243 h^0.40 p^0.20 km (47 CFR 22.537(c), written for paging at 152 to 159 MHz, used
// here for 2 m and 1.25 m). heightM is above average terrain. ITU-R P.1546-6 comes out 0 to
// 20 % nearer. No formula was found for 70 cm: outside 144 to 225 MHz, 30 to 500 m and
// 1 to 500 W it is a *RangeError, and the plan should say what the station covers.
func ServiceRadius(f signal.Hertz, heightM, erpWatts float64) (meters float64, err error) {
	err = inRange("the service radius of 47 CFR 22.537(c)",
		bound{"a frequency", mhz(f), 144, 225, "MHz"},
		bound{"a height", heightM, 30, 500, "m"},
		bound{"an ERP", erpWatts, 1, 500, "W"})
	if err != nil {
		return 0, err
	}
	return 1243 * math.Pow(heightM, 0.40) * math.Pow(erpWatts, 0.20), nil
}

// Emitter is what an estimate of two signals needs of a transmitter.
type Emitter struct {
	ERPWatts float64
	HeightM  float64 // above the ground around it
}

// WantedToUnwanted estimates in dB how much stronger a wanted signal is than an unwanted one
// where a mobile is wantedM from one transmitter and unwantedM from the other. By Egli's
// loss the frequency and the terrain drop out:
//
//	D/U = 40 log(unwantedM/wantedM) + 10 log(ERP_w/ERP_u) + 20 log(h_w/h_u)
//
// so anybody can redo it by hand. Councils ask for 18 to 25 dB on one channel. Every
// argument must be above zero, otherwise it is a *RangeError.
func WantedToUnwanted(wanted, unwanted Emitter, wantedM, unwantedM float64) (dB float64, err error) {
	some := func(quantity string, value float64, unit string) bound {
		return bound{quantity, value, math.SmallestNonzeroFloat64, math.MaxFloat64, unit}
	}
	err = inRange("the ratio of two signals",
		some("a distance", wantedM, "m"), some("a distance", unwantedM, "m"),
		some("an ERP", wanted.ERPWatts, "W"), some("an ERP", unwanted.ERPWatts, "W"),
		some("a height", wanted.HeightM, "m"), some("a height", unwanted.HeightM, "m"))
	if err != nil {
		return 0, err
	}
	return 40*(math.Log10(unwantedM)-math.Log10(wantedM)) +
		10*(math.Log10(wanted.ERPWatts)-math.Log10(unwanted.ERPWatts)) +
		20*(math.Log10(wanted.HeightM)-math.Log10(unwanted.HeightM)), nil
}

// EdgeRatio is WantedToUnwanted at the edge of the wanted station's service, radiusM from it on the
// line toward the other, distanceM away. Inside is true where the other stands within that
// radius: then there is no ratio, and that is the thing to say.
func EdgeRatio(wanted, unwanted Emitter, radiusM, distanceM float64) (dB float64, inside bool, err error) {
	if distanceM <= radiusM {
		return 0, true, nil
	}
	dB, err = WantedToUnwanted(wanted, unwanted, radiusM, distanceM-radiusM)
	return dB, false, err
}
