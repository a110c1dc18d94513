package plan

// A Kind is a sort of thing that a plan holds.
type Kind uint8

// The kinds, in the order in which a reader meets them.
const (
	KindPlan Kind = iota + 1
	KindRepeater
	KindGroup
	KindReceiveList
	KindChannel
	KindZone
	KindScanList
	KindMessage
	KindShortcut
	KindOperator
	KindRadio
	KindSeverity
	KindAcceptance
	KindLicenseRow
	KindSeparationRow
	KindNeighbor
	KindCoordination
)

var kindNames = [...]string{
	KindPlan: "plan", KindRepeater: "repeater", KindGroup: "group", KindReceiveList: "receive list",
	KindChannel: "channel", KindZone: "zone", KindScanList: "scan list", KindMessage: "message",
	KindShortcut: "shortcut", KindOperator: "operator", KindRadio: "radio",
	KindSeverity: "severity", KindAcceptance: "acceptance", KindLicenseRow: "license row",
	KindSeparationRow: "separation row", KindNeighbor: "neighbor", KindCoordination: "coordination",
}

// String gives the word for the kind, in the singular.
func (k Kind) String() string {
	if int(k) < len(kindNames) && kindNames[k] != "" {
		return kindNames[k]
	}
	return "thing"
}

// MarshalText gives the word for the kind, so that JSON shows it.
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// A Weight says what a change to a field does to a member's radio.
type Weight uint8

// The weights, heaviest first.
const (
	Air    Weight = iota + 1 // a radio will transmit or listen differently
	Layout                   // zones, order and lists
	Label                    // names, notes and facts that no radio holds
	Policy                   // what is judged, and how
)

var weightNames = [...]string{Air: "air", Layout: "layout", Label: "label", Policy: "policy"}

// String gives the word for the weight.
func (w Weight) String() string {
	if int(w) < len(weightNames) && weightNames[w] != "" {
		return weightNames[w]
	}
	return "none"
}

// MarshalText gives the word for the weight, so that JSON shows it.
func (w Weight) MarshalText() ([]byte, error) { return []byte(w.String()), nil }
