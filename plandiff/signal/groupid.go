package signal

import "strconv"

// GroupID is the 24-bit address of a talkgroup, 1 to 16777215. It is another space than
// RadioID: the same number can be both. The zero value stands for a number that is
// not given.
type GroupID uint32

var groupNumber = notation{
	kind: "group number", write: "write a number from 1 to 16777215, as in 99931",
	lowest: 1, highest: AllCall,
}

// ParseGroupID reads a group number in plain decimal digits. Whether it lies in the part
// of the space meant for talkgroups is told by Range.
func ParseGroupID(text string) (GroupID, error) {
	value, err := readAddress(groupNumber, text)
	return GroupID(value), err
}

// String returns the number.
func (g GroupID) String() string { return strconv.FormatUint(uint64(g), 10) }

// MarshalText returns String, or nothing for the zero value.
func (g GroupID) MarshalText() ([]byte, error) { return marshalOptional(g, g.String()) }

// UnmarshalText reads what ParseGroupID reads, and nothing as the zero value.
func (g *GroupID) UnmarshalText(text []byte) error { return unmarshalOptional(g, text, ParseGroupID) }
