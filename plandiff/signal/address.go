package signal

// AllCall is the address that calls everyone, as a group or as a unit, where a system
// is not partitioned (ETSI TS 102 361-1 annex A).
const AllCall = 0xFFFFFF

// Hotspot numbers are a radio ID and two digits, for a network only: they
// don't fit the 24 bits on the air (common practice, no source).
const (
	lowestHotspot  = 100_000_000
	highestHotspot = 999_999_999
)

// readAddress reads a 24-bit address; the notation says whose.
func readAddress(n notation, text string) (uint32, error) {
	value, err := n.read(text)
	switch {
	case err != nil:
		return 0, err
	case value == 0:
		return 0, n.error(text, "is zero, which no DMR call can address", n.write, "")
	case value >= lowestHotspot && value <= highestHotspot:
		return 0, n.error(text, "looks like a hotspot number, which never goes on the air",
			"did you mean its first seven digits, the radio ID "+text[:7], "")
	case !n.holds(value):
		return 0, n.error(text, "does not fit the 24 bits of a DMR address", n.write, "")
	}
	return uint32(value), nil
}

// AddressRange is the part of the 24-bit address space that an address lies in. Groups and
// units have two separate spaces with the same limits. Source: ETSI TS 102 361-1
// annex A, table A.1, as transcribed in study notes on V2.7.1.
type AddressRange uint8

// The ranges, in hexadecimal.
const (
	RangeNull        AddressRange = iota // 000000: not allowed
	RangeTalkgroup                       // 000001-FFFCDF, groups
	RangeUnit                            // 000001-FFFCDF, units
	RangeReserved                        // FFFCE0-FFFEDF; for groups to FFFFDF
	RangeGateway                         // FFFEE0-FFFEEF, units
	RangeCustom                          // FFFEF0-FFFFEF, units
	RangeUnaddressed                     // FFFFE0-FFFFEF, groups
	RangeAllCall                         // FFFFF0-FFFFFF: everyone, or one of 16 partitions
	RangeOutside                         // more than 24 bits
)

var rangeNames = [...]string{
	RangeNull:        "null address",
	RangeTalkgroup:   "talkgroup",
	RangeUnit:        "unit",
	RangeReserved:    "reserved",
	RangeGateway:     "system gateway",
	RangeCustom:      "custom",
	RangeUnaddressed: "unaddressed group",
	RangeAllCall:     "all call",
	RangeOutside:     "outside 24 bits",
}

// String returns the name of the range.
func (r AddressRange) String() string {
	if int(r) < len(rangeNames) {
		return rangeNames[r]
	}
	return "unknown"
}

// Range returns the part of the group addresses that g lies in.
func (g GroupID) Range() AddressRange {
	switch {
	case g == 0:
		return RangeNull
	case g <= 0xFFFCDF:
		return RangeTalkgroup
	case g <= 0xFFFFDF:
		return RangeReserved
	case g <= 0xFFFFEF:
		return RangeUnaddressed
	case g <= AllCall:
		return RangeAllCall
	default:
		return RangeOutside
	}
}

// Range returns the part of the unit addresses that r lies in.
func (r RadioID) Range() AddressRange {
	switch {
	case r == 0:
		return RangeNull
	case r <= 0xFFFCDF:
		return RangeUnit
	case r <= 0xFFFEDF:
		return RangeReserved
	case r <= 0xFFFEEF:
		return RangeGateway
	case r <= 0xFFFFEF:
		return RangeCustom
	case r <= AllCall:
		return RangeAllCall
	default:
		return RangeOutside
	}
}
