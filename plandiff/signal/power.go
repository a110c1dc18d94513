package signal

import "math"

// Power is a power in milliwatts. The zero value stands for one that is not given.
type Power int64

// watts ends at 1 MW, far above what any amateur station may run, so that only a slip of
// the unit is above it.
var watts = notation{
	kind: "power", unit: "W", write: "write watts, as in 5 or 0.5", places: 3, finest: "1 mW",
	lowest: 1, highest: 1_000_000_000,
}

// ParseWatts reads a power in watts without a unit: 5, 0.5. It accepts 0.001 W to 1 MW.
func ParseWatts(text string) (Power, error) {
	value, err := watts.read(text)
	if err != nil {
		return 0, err
	}
	switch {
	case value == 0:
		return 0, watts.error(text, "is zero", "leave the power out where it is not known", "")
	case !watts.holds(value):
		return 0, watts.error(text, "is above a million watts", watts.write, "")
	default:
		return Power(value), nil
	}
}

// String returns the power with its unit, in milliwatts below 1 W: 5 W, 500 mW.
func (p Power) String() string {
	if p > -1_000 && p < 1_000 {
		return formatDecimal(int64(p), 0, 0) + " mW"
	}
	return formatDecimal(int64(p), 3, 0) + " W"
}

// Watts returns the power in watts, for computing with.
func (p Power) Watts() float64 { return float64(p) / 1_000 }

// DBm returns the power in decibels above 1 mW, minus infinity for the zero value.
func (p Power) DBm() float64 { return 10 * math.Log10(float64(max(p, 0))) }

// MarshalText returns the watts that ParseWatts reads, or nothing for the zero value.
func (p Power) MarshalText() ([]byte, error) {
	return marshalOptional(p, formatDecimal(int64(p), 3, 0))
}

// UnmarshalText reads what ParseWatts reads, and nothing as the zero value.
func (p *Power) UnmarshalText(text []byte) error { return unmarshalOptional(p, text, ParseWatts) }
