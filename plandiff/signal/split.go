package signal

// Split is how far a repeater's input lies from its output, in hertz: input minus
// output. It is negative where the input is the lower of the two. The zero value
// stands for a split that is not given.
type Split int64

// splitMHz ends at 100 MHz. The usual splits end at 12 MHz below 1 GHz and at a few
// tens of MHz above (common practice, no source).
var splitMHz = notation{
	kind: "split", unit: "MHz", write: "write MHz with a sign, as in +5 or -0.6", places: 6, finest: "1 Hz", sign: signRequired,
	lowest: -100_000_000, highest: 100_000_000, nonzero: true,
}

// ParseSplit reads a split in MHz with its sign: +5, -0.6. The sign is required,
// because a member with the wrong one transmits where the repeater does not listen and
// somebody else may. Zero is an error, and so is anything above 100 MHz.
func ParseSplit(text string) (Split, error) {
	value, ok := splitMHz.parse(text)
	switch {
	case ok && splitMHz.holds(value):
		return Split(value), nil
	case ok && value == 0 || text == "0":
		return 0, splitMHz.error(text, "is zero", "that is simplex: write a channel with simplex and its frequency", "")
	case ok:
		return 0, tooWide(text, value)
	}
	if size, ok := splitMHz.scan(text); ok {
		return 0, unsigned(text, size)
	}
	return 0, splitMHz.explain(text)
}

// unsigned offers both signs, because nothing tells which is meant.
func unsigned(text string, size int64) error {
	unit, size := likelySplit(size)
	if size == 0 {
		return splitMHz.error(text, "has no sign", splitMHz.write, "")
	}
	problem := "has no sign"
	if unit != "MHz" {
		problem += " and looks like " + unit
	}
	return splitMHz.error(text, problem, "write "+Split(size).String()+" or "+Split(-size).String(), "")
}

// tooWide explains a split above 100 MHz.
func tooWide(text string, value int64) error {
	if unit, likely := likelySplit(value); likely != 0 {
		return splitMHz.fixed(text, "looks like "+unit, "write MHz: did you mean", Split(likely).String())
	}
	return splitMHz.error(text, "is more than 100 MHz", splitMHz.write, "")
}

// likelySplit returns the unit in which value makes a split of at most 100 MHz, and that
// split; zero if there is none.
func likelySplit(value int64) (unit string, likely int64) {
	for _, guess := range []struct {
		unit    string
		divisor int64
	}{{"MHz", 1}, {"kHz", 1_000}, {"Hz", 1_000_000}} {
		if value%guess.divisor == 0 && splitMHz.holds(value/guess.divisor) {
			return guess.unit, value / guess.divisor
		}
	}
	return "", 0
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
