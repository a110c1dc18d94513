package signal

// Decibels is a ratio of powers in hundredths of a decibel: 215 is 2.15 dB. Zero is a
// valid ratio.
type Decibels int64

// decibels holds what an antenna, a line and filters give or take: more gain than any
// amateur antenna has, and more loss than leaves anything to send.
var decibels = notation{
	kind: "ratio", unit: "dB", write: "write decibels, as in 6 or 2.15", places: 2, finest: "a hundredth of a decibel", sign: signMinus,
	lowest: -5_000, highest: 10_000,
}

// ParseDecibels reads a ratio in decibels without a unit and with at most two decimals
// that are not zero, from -50 to 100.
func ParseDecibels(text string) (Decibels, error) {
	value, err := decibels.read(text)
	if err != nil {
		return 0, err
	}
	if !decibels.holds(value) {
		return 0, decibels.error(text, "is not between -50 and 100 dB", decibels.write, "")
	}
	return Decibels(value), nil
}

// String returns the ratio with its unit: 6 dB, 2.15 dB.
func (d Decibels) String() string { return formatDecimal(int64(d), 2, 0) + " dB" }

// Float returns the decibels, for computing with.
func (d Decibels) Float() float64 { return float64(d) / 100 }

// MarshalText returns the decibels that ParseDecibels reads.
func (d Decibels) MarshalText() ([]byte, error) { return []byte(formatDecimal(int64(d), 2, 0)), nil }

// UnmarshalText reads what ParseDecibels reads.
func (d *Decibels) UnmarshalText(text []byte) error { return unmarshal(d, text, ParseDecibels) }
