package signal

import "strconv"

// RadioID is the 24-bit address of a person's radio or of a repeater, 1 to 16777215. By
// convention a person has seven digits and a repeater six, and the first three are
// a mobile country code. The zero value stands for a number that is not given.
type RadioID uint32

var radioNumber = notation{
	kind: "radio ID", write: "write a number from 1 to 16777215, as in 9990001",
	lowest: 1, highest: AllCall,
}

// ParseRadioID reads a radio ID in plain decimal digits. Whether it lies in the part of
// the space meant for radios is told by Range.
func ParseRadioID(text string) (RadioID, error) {
	value, err := readAddress(radioNumber, text)
	return RadioID(value), err
}

// Country returns the country, by ITU-T E.212, of the mobile country code that a six
// or seven digit ID begins with. It is a convention that countries with many operators
// leave, so an unknown code deserves a note at most. Codes for tests and international
// networks answer with a name saying so.
func (r RadioID) Country() (country string, ok bool) {
	switch {
	case r >= 1_000_000 && r <= 9_999_999:
		r /= 10_000
	case r >= 100_000 && r <= 999_999:
		r /= 1_000
	default:
		return "", false
	}
	country, ok = countryCodes()[r.String()]
	return country, ok
}

// String returns the number.
func (r RadioID) String() string { return strconv.FormatUint(uint64(r), 10) }

// MarshalText returns String, or nothing for the zero value.
func (r RadioID) MarshalText() ([]byte, error) { return marshalOptional(r, r.String()) }

// UnmarshalText reads what ParseRadioID reads, and nothing as the zero value.
func (r *RadioID) UnmarshalText(text []byte) error { return unmarshalOptional(r, text, ParseRadioID) }
