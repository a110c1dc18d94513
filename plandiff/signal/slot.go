package signal

import "strconv"

// Slot is a DMR time slot, 1 or 2 (ETSI TS 102 361-1). The zero value stands for a
// slot that is not given.
type Slot uint8

var slotNumber = notation{kind: "slot", write: "write 1 or 2", lowest: 1, highest: 2}

// ParseSlot reads 1 or 2.
func ParseSlot(text string) (Slot, error) {
	value, err := slotNumber.read(text)
	if err != nil {
		return 0, err
	}
	if !slotNumber.holds(value) {
		return 0, slotNumber.error(text, "is not a DMR time slot", slotNumber.write, "")
	}
	return Slot(value), nil
}

// String returns the number.
func (s Slot) String() string { return strconv.Itoa(int(s)) }

// MarshalText returns String, or nothing for the zero value.
func (s Slot) MarshalText() ([]byte, error) { return marshalOptional(s, s.String()) }

// UnmarshalText reads what ParseSlot reads, and nothing as the zero value.
func (s *Slot) UnmarshalText(text []byte) error { return unmarshalOptional(s, text, ParseSlot) }
