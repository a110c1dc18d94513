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
	limit              MicroDegrees
	positive, negative string // the letters a map puts behind the angle
}

var (
	latitude = axis{
		notation: notation{kind: "latitude", unit: "\u00b0", write: "write decimal degrees from -90 to 90, as in 40.1, south negative",
			places: 6, finest: "a millionth of a degree (11 cm)", sign: signMinus},
		limit: pole, positive: "N", negative: "S",
	}
	longitude = axis{
		notation: notation{kind: "longitude", unit: "\u00b0", write: "write decimal degrees from -180 to 180, as in -104.2, west negative",
			places: 6, finest: "a millionth of a degree (11 cm)", sign: signMinus},
		limit: dateLine, positive: "E", negative: "W",
	}
)

// ParseLatitude reads decimal degrees from -90 to 90, exactly: at most six decimals that
// are not zero. South is negative.
func ParseLatitude(text string) (MicroDegrees, error) { return latitude.parse(text) }

// ParseLongitude reads decimal degrees from -180 to 180, exactly: at most six decimals
// that are not zero. West is negative.
func ParseLongitude(text string) (MicroDegrees, error) { return longitude.parse(text) }

func (a axis) parse(text string) (MicroDegrees, error) {
	value, err := a.read(text)
	switch angle := MicroDegrees(value); {
	case err != nil:
		if number, ok := a.lettered(text); ok {
			return 0, a.fixed(text, "has a letter for its side", "write the sign instead:", number)
		}
		return 0, err
	case angle < -a.limit || angle > a.limit:
		return 0, a.error(text, "is beyond "+a.limit.String()+" degrees", a.write+"; were latitude and longitude swapped?", "")
	default:
		return angle, nil
	}
}

// lettered returns the signed number for 40.1 N or 104.2 W.
func (a axis) lettered(text string) (number string, ok bool) {
	if len(text) > longestShown {
		return "", false
	}
	upper := upperASCII(strings.TrimSpace(text))
	number, south := strings.CutSuffix(upper, a.negative)
	if !south {
		if number, ok = strings.CutSuffix(upper, a.positive); !ok {
			return "", false
		}
	}
	number = strings.TrimRight(number, " \u00b0")
	size, ok := a.scan(number)
	if ok = ok && MicroDegrees(size) <= a.limit; ok && south {
		number = "-" + number
	}
	return number, ok
}

// String returns decimal degrees with as many decimals as they need: -104.2.
func (d MicroDegrees) String() string { return formatDecimal(int64(d), 6, 0) }

// Degrees returns the angle in degrees, for computing with.
func (d MicroDegrees) Degrees() float64 { return float64(d) / float64(degree) }

// MarshalText returns String.
func (d MicroDegrees) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what ParseLongitude reads, since an angle alone may be either.
func (d *MicroDegrees) UnmarshalText(text []byte) error { return unmarshal(d, text, ParseLongitude) }
