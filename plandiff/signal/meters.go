package signal

// Meters is a height in tenths of a meter: 305 is 30.5 m. Zero is a valid height.
type Meters int64

// meters holds the heights a site can have, above ground or above the sea: from below the
// lowest shore to above the highest mountain.
var meters = notation{
	kind: "height", unit: "m", write: "write meters, as in 30 or 12.5", places: 1, finest: "a tenth of a meter", sign: signMinus,
	lowest: -5_000, highest: 100_000,
}

// ParseMeters reads a height in meters without a unit and with at most one decimal that is
// not zero, from -500 to 10000.
func ParseMeters(text string) (Meters, error) {
	value, err := meters.read(text)
	if err != nil {
		return 0, err
	}
	if !meters.holds(value) {
		return 0, meters.error(text, "is not between -500 and 10000 m", meters.write, "")
	}
	return Meters(value), nil
}

// String returns the height with its unit: 30 m, 30.5 m.
func (m Meters) String() string { return formatDecimal(int64(m), 1, 0) + " m" }

// Float returns the height in meters, for computing with.
func (m Meters) Float() float64 { return float64(m) / 10 }

// MarshalText returns the meters that ParseMeters reads.
func (m Meters) MarshalText() ([]byte, error) { return []byte(formatDecimal(int64(m), 1, 0)), nil }

// UnmarshalText reads what ParseMeters reads.
func (m *Meters) UnmarshalText(text []byte) error { return unmarshal(m, text, ParseMeters) }
