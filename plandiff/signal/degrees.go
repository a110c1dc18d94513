package signal

import "strings"

// MicroDegrees is an angle in millionths of a degree, on WGS 84. A millionth is 11 cm at
// the equator. North and east are positive. Zero is a valid angle.
type MicroDegrees int64

const (
	degree   MicroDegrees = 1_000_000
	pole                  = 90 * degree
	dateLine              = 180 * degree
)

// An axis is one of the two coordinates.
type axis struct {
	notation
	positive, negative string // the letters a map puts behind the angle
}

const finestAngle = "a millionth of a degree (11 cm)"

var (
	latitude = axis{
		notation: notation{
			kind: "latitude", unit: "°", write: "write decimal degrees from -90 to 90, as in 40.1, south negative",
			places: 6, finest: finestAngle, sign: signMinus, lowest: int64(-pole), highest: int64(pole),
		},
		positive: "N", negative: "S",
	}
	longitude = axis{
		notation: notation{
			kind: "longitude", unit: "°", write: "write decimal degrees from -180 to 180, as in -104.2, west negative",
			places: 6, finest: finestAngle, sign: signMinus, lowest: int64(-dateLine), highest: int64(dateLine),
		},
		positive: "E", negative: "W",
	}
)

// ParseLatitude reads decimal degrees from -90 to 90, exactly: at most six decimals that
// are not zero. South is negative.
func ParseLatitude(text string) (MicroDegrees, error) { return latitude.angle(text) }

// ParseLongitude reads decimal degrees from -180 to 180, exactly: at most six decimals
// that are not zero. West is negative.
func ParseLongitude(text string) (MicroDegrees, error) { return longitude.angle(text) }

func (a axis) angle(text string) (MicroDegrees, error) {
	value, err := a.read(text)
	if err != nil {
		if number, ok := a.lettered(text); ok {
			return 0, a.fixed(text, "has a letter for its side", "write the sign instead:", number)
		}
		return 0, err
	}
	if !a.holds(value) {
		return 0, a.error(text, "is out of range", a.write+" (were latitude and longitude swapped?)", "")
	}
	return MicroDegrees(value), nil
}

// lettered returns the signed number for 40.1 N or 104.2 W.
func (a axis) lettered(text string) (number string, ok bool) {
	upper := upperASCII(strings.TrimSpace(text))
	if number, ok = strings.CutSuffix(upper, a.positive); !ok {
		number, ok = strings.CutSuffix("-"+upper, a.negative)
	}
	number = strings.TrimRight(number, " °")
	return number, ok && a.accepts(number)
}

// String returns decimal degrees with as many decimals as they need: -104.2.
func (d MicroDegrees) String() string { return formatDecimal(int64(d), 6, 0) }

// Degrees returns the angle in degrees, for computing with.
func (d MicroDegrees) Degrees() float64 { return float64(d) / float64(degree) }

// MarshalText returns String.
func (d MicroDegrees) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads -180 to 180 degrees, since an angle alone may be a latitude or a
// longitude.
func (d *MicroDegrees) UnmarshalText(text []byte) error { return unmarshal(d, text, parseAngle) }

func parseAngle(text string) (MicroDegrees, error) {
	either := longitude
	either.kind = "coordinate"
	return either.angle(text)
}
