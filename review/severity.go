package review

import "fmt"

// A Severity says what a finding does to a merge.
type Severity uint8

// The severities, mildest first.
const (
	Off   Severity = iota // the rule does not run
	Note                  // worth knowing
	Warn                  // probably wrong; a person decides
	Block                 // must not reach members
)

var severityNames = [...]string{Off: "off", Note: "note", Warn: "warn", Block: "block"}

// String gives the word for the severity, as a policy writes it.
func (s Severity) String() string {
	if int(s) < len(severityNames) {
		return severityNames[s]
	}
	return "off"
}

// MarshalText gives the word for the severity, so that JSON shows it.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// ParseSeverity reads block, warn, note or off.
func ParseSeverity(text string) (Severity, error) {
	for s, name := range severityNames {
		if name == text {
			return Severity(s), nil
		}
	}
	return Off, fmt.Errorf("%q is not a severity; write block, warn, note or off", text)
}
