package signal

// Hertz is a frequency or a width in hertz, exactly. No float is involved anywhere.
// The zero value stands for a frequency that is not given.
type Hertz int64

// megahertz holds a range far wider than the bands of any plan, so that only a slip of
// the unit falls outside: 0.1 MHz up to just below 10 000 MHz.
var megahertz = notation{
	kind: "frequency", unit: "MHz", write: "write MHz, as in 146.520", places: 6, finest: "1 Hz",
	lowest: 100_000, highest: 9_999_999_999,
}

// ParseMegahertz reads a frequency in MHz as it is written in a plan: digits, an
// optional point and at most six decimals that are not zero. It accepts 0.1 MHz up
// to, but not including, 10 000 MHz. A number that looks like kHz or Hz is an
// error that offers the MHz, never a silent guess.
func ParseMegahertz(text string) (Hertz, error) {
	value, err := megahertz.read(text)
	if err != nil {
		return 0, err
	}
	switch {
	case value == 0:
		return 0, megahertz.error(text, "is zero", megahertz.write, "")
	case value < megahertz.lowest:
		return 0, megahertz.error(text, "is below 0.1 MHz", megahertz.write, "")
	case value > megahertz.highest:
		return 0, otherUnit(text, value)
	default:
		return Hertz(value), nil
	}
}

// otherUnit explains a number of MHz that is too large. A bare number from 10 000 to
// 9 999 999 is taken for kHz and a larger one for Hz (common practice, no source).
func otherUnit(text string, value int64) error {
	unit, divisor := "kHz", int64(1_000)
	if value > 1_000*megahertz.highest {
		unit, divisor = "Hz", 1_000_000
	}
	if value%divisor != 0 || !megahertz.holds(value/divisor) {
		return megahertz.error(text, "is 10000 MHz or more", megahertz.write, "")
	}
	return megahertz.fixed(text, "looks like "+unit, "write MHz: did you mean", Hertz(value/divisor).String())
}

// String returns the frequency in MHz with at least three decimals and as many more
// as it needs: 146.520, 446.00625, 443.003125.
func (f Hertz) String() string { return formatDecimal(int64(f), 6, 3) }

// KHz returns a width in kHz with as many decimals as it needs: 16, 12.5, 7.6.
func (f Hertz) KHz() string { return formatDecimal(int64(f), 3, 0) }

// MarshalText returns String, or nothing for the zero value.
func (f Hertz) MarshalText() ([]byte, error) { return marshalOptional(f, f.String()) }

// UnmarshalText reads what ParseMegahertz reads, and nothing as the zero value.
func (f *Hertz) UnmarshalText(text []byte) error { return unmarshalOptional(f, text, ParseMegahertz) }

// IsFrequency reports whether ParseMegahertz could have read the value: whether it can
// be a frequency at all and not merely the result of a sum.
func (f Hertz) IsFrequency() bool { return megahertz.holds(int64(f)) }
