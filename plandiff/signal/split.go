package signal

// Split is how far a repeater's input lies from its output, in hertz: input minus
// output. It is negative where the input is the lower of the two. The zero value
// stands for a split that is not given.
type Split int64

// widest is the largest split a plan may hold; the usual ones end at 12 MHz below
// 1 GHz and at a few tens of MHz above (common practice, no source).
const widest Split = 100_000_000

var splitMHz = notation{
	kind: "split", unit: "MHz", write: "write MHz with a sign, as in +5 or -0.6", places: 6, finest: "1 Hz", sign: signRequired,
}

// ParseSplit reads a split in MHz with its sign: +5, -0.6. The sign is required,
// because leaving it out is how a club ends up transmitting on the wrong side. Zero is
// an error, and so is anything above 100 MHz.
func ParseSplit(text string) (Split, error) {
	value, err := splitMHz.read(text)
	if err != nil {
		return 0, err
	}
	switch s := Split(value); {
	case s == 0:
		return 0, splitMHz.error(text, "is zero", "that is simplex: write simplex with the frequency in place of output and split", "")
	case s > widest || s < -widest:
		return 0, tooWide(text, s)
	default:
		return s, nil
	}
}

// tooWide explains a split above 100 MHz: most are written in kHz, some in Hz.
func tooWide(text string, s Split) error {
	for _, guess := range []struct {
		unit    string
		divisor Split
	}{{"kHz", 1_000}, {"Hz", 1_000_000}} {
		if mhz := s / guess.divisor; s%guess.divisor == 0 && mhz >= -widest && mhz <= widest {
			return splitMHz.fixed(text, "looks like "+guess.unit, "write MHz; did you mean", mhz.String())
		}
	}
	return splitMHz.error(text, "is more than 100 MHz", splitMHz.write, "")
}

// String returns the split in MHz with its sign and as many decimals as it needs: +5,
// -0.6.
func (s Split) String() string {
	text := formatDecimal(int64(s), 6, 0)
	if s < 0 {
		return text
	}
	return "+" + text
}

// MarshalText returns String, or nothing for the zero value.
func (s Split) MarshalText() ([]byte, error) { return marshalOptional(s, s.String()) }

// UnmarshalText reads what ParseSplit reads, and nothing as the zero value.
func (s *Split) UnmarshalText(text []byte) error { return unmarshalOptional(s, text, ParseSplit) }
