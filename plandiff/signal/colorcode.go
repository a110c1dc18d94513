package signal

import "strconv"

// ColorCode is the DMR color code, 0 to 15. It keeps overlapping systems on one
// frequency apart and is no address (ETSI TS 102 361-1 clause 4.2.1). Zero is a valid
// code.
type ColorCode uint8

var colorCode = notation{kind: "color code", write: "write a number from 0 to 15", lowest: 0, highest: 15}

// ParseColorCode reads 0 to 15.
func ParseColorCode(text string) (ColorCode, error) {
	value, err := colorCode.read(text)
	if err != nil {
		return 0, err
	}
	if !colorCode.holds(value) {
		return 0, colorCode.error(text, "is above 15", colorCode.write, "")
	}
	return ColorCode(value), nil
}

// String returns the number.
func (c ColorCode) String() string { return strconv.Itoa(int(c)) }

// MarshalText returns String.
func (c ColorCode) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads what ParseColorCode reads.
func (c *ColorCode) UnmarshalText(text []byte) error { return unmarshal(c, text, ParseColorCode) }
