package plan

import (
	"strings"

	"passband.example/plandiff/signal"
)

// A Plan is everything in one plan folder at one revision, as it was written.
type Plan struct {
	Header       Header
	Repeaters    Table[*Repeater]
	Groups       Table[*Group]
	ReceiveLists Table[*ReceiveList]
	Channels     Table[*ChannelSpec]
	Zones        Table[*Zone]
	ScanLists    Table[*ScanList]
	Messages     Table[*Message]
	Shortcuts    Table[*Shortcut]
	Operators    Table[*Operator]
	Radios       Table[*Radio]
	Severities   Table[*Severity]
	Acceptances  Table[*Acceptance]
	LicenseRows  Table[*LicenseRow]

	SeparationRows Table[*SeparationRow]
	Neighbors      Table[*Neighbor]
	Coordinations  Table[*Coordination]

	Files    []string  // the files it was read from, sorted
	Problems []Problem // what could not be read, sorted by place

	rows map[Thing]int // how many rows of a table say the same as one before them

	// By whose rows it is judged; nil: its own alone. See Under.
	licenseBase, separationBase, neighborBase *Plan
}

// A Record is one thing of a plan: a repeater, a zone, a message.
type Record interface {
	Thing() Thing
	Place() Place // where its key stands
	Partly() bool
	Wording() string
	setPartly()
	setWording(string)
	setKey(Value[string])
}

// Name is the key of a record and the place where it stands.
type Name struct {
	Key     Value[string]
	wording string
	partly  bool
}

// Wording gives the text that the record was read from, without comments behind it. Of two
// records of a kind with the same key and the same wording all fields are the same. It is ""
// where that is not known.
func (n *Name) Wording() string { return n.wording }

func (n *Name) setWording(text string) { n.wording = text }

// Partly reports whether part of what is written of the record could not be
// read, so that nothing can be said of what seems to be missing in it.
func (n *Name) Partly() bool { return n.partly }

func (n *Name) setPartly() { n.partly = true }

// Place gives where the key stands.
func (n *Name) Place() Place { return n.Key.At }

func (n *Name) setKey(k Value[string]) { n.Key = k }

// Header holds the keys of plan.yaml that belong to no section.
type Header struct {
	Name
	Title   Value[string]
	Edition Value[int]
	Region  Value[string]
	License Value[string]
	Area    Value[string] // US-AL: whose separation rows apply
	List    Value[string] // the file with the neighbor list
	Note    Value[string]
}

// Repeater is a station that hears on its input and repeats on its output.
type Repeater struct {
	Name
	Was      Value[string] // the key that it had before this change
	Label    Value[string]
	Callsign Value[signal.Callsign]
	Output   Value[signal.Hertz]
	Split    Value[signal.Split]
	Input    Value[signal.Hertz]
	// Blocks of keys, which are never nil. Those that are not written are one and the same
	// for all records, and must not be changed but by Field.Set.
	FM    *FM
	DMR   *RepeaterDMR
	Site  *Site
	Extra *Extra
	When  Value[string] // when to use it
	Note  Value[string]
}

// RepeaterDMR is the DMR side of a repeater.
type RepeaterDMR struct {
	Present     Value[bool]
	ColorCode   Value[signal.ColorCode]
	Slots       [2][]Value[string] // groups of time slot 1 and 2
	ReceiveList Value[string]
	Access      Value[string]
	Privacy     Value[bool]
}

// FM is the FM side of a repeater, or what makes a channel an FM one.
type FM struct {
	Present     Value[bool]
	ToneSend    Value[signal.Tone]
	ToneReceive Value[signal.Tone]
	Width       Value[string] // wide or narrow
	Access      Value[string]
}

// Site is where a repeater stands, and what its antenna radiates. Height is that of its
// antenna above ground.
type Site struct {
	Present Value[bool]
	Grid    Value[signal.Grid]
	Lat     Value[signal.MicroDegrees]
	Lon     Value[signal.MicroDegrees]
	Height  Value[signal.Meters]
	ERP     Value[signal.Power]
	Output  Value[signal.Power]    // of the transmitter
	Gain    Value[signal.Decibels] // of the antenna, over a half-wave dipole
	Loss    Value[signal.Decibels] // of all between: lines, duplexer, circulator
	Duty    Value[int]             // percent of the time that it sends
	People  Value[signal.Meters]   // the nearest that anybody comes to the antenna
}

// Extra holds what a channel may say beyond the signal itself.
type Extra struct {
	Power    Value[string] // low, medium, high or watts
	Timeout  Value[int]    // seconds
	ScanList Value[string]
}

// Group is a talkgroup or a private contact.
type Group struct {
	Name
	Was   Value[string] // the key that it had before this change
	ID    Value[signal.GroupID]
	Label Value[string]
	Call  Value[string] // group, private or all
	When  Value[string] // when to use it
	Busy  struct {      // in the busy hour
		Calls   Value[int]
		Seconds Value[int] // that a call holds the slot, hang time included
	}
	Note Value[string]
}

// ReceiveList names groups that a channel listens for.
type ReceiveList struct {
	Name
	Was    Value[string] // the key that it had before this change
	Label  Value[string]
	Groups []Value[string]
	Note   Value[string]
}

// ChannelSpec is a channel as somebody wrote it in the section channels.
// Expand makes Channels of these and of the talk paths of repeaters.
type ChannelSpec struct {
	Name
	Was      Value[string] // the key that it had before this change
	Label    Value[string]
	Simplex  Value[signal.Hertz]
	Receive  Value[signal.Hertz]
	Path     Value[string]
	Transmit Value[bool]
	FM       *FM
	DMR      *ChannelDMR
	Extra    *Extra
	When     Value[string] // when to use it
	Note     Value[string]
}

// ChannelDMR is what makes a channel a DMR one.
type ChannelDMR struct {
	Present     Value[bool]
	ColorCode   Value[signal.ColorCode]
	Slot        Value[signal.Slot]
	Group       Value[string]
	ReceiveList Value[string]
	Access      Value[string]
	Privacy     Value[bool]
}

// Zone is an ordered set of channels that a person switches between.
type Zone struct {
	Name
	Was      Value[string] // the key that it had before this change
	Label    Value[string]
	Channels []Value[string]
	Note     Value[string]
}

// ScanList is the channels that a radio sweeps.
type ScanList struct {
	Name
	Was      Value[string] // the key that it had before this change
	Label    Value[string]
	Channels []Value[string]
	Priority Value[string]
	Note     Value[string]
}

// Message is a preset text that a radio can send.
type Message struct {
	Name
	Text Value[string]
}

// Shortcut is a number key that calls a group or an operator.
type Shortcut struct {
	Name
	Calls Value[string]
}

// Operator is a person with a callsign and a radio ID: one row of operators.csv.
type Operator struct {
	Name
	ID       Value[signal.RadioID]
	Callsign Value[signal.Callsign]
	Person   Value[string]
}

// Radio is a class of radio that members own.
type Radio struct {
	Name
	Was         Value[string] // the key that it had before this change
	Label       Value[string]
	Bands       []Value[Band]
	Modes       []Value[Mode]
	LabelLength Value[int] // characters
	Characters  Value[Charset]
	Zones       []Value[string]
	Limits      [LimitCount]Value[int]
	Note        Value[string]
}

// Severity is one line of the policy: how bad a rule's findings are.
type Severity struct {
	Name
	Level Value[string]
}

// Acceptance is one finding that the club has decided to live with.
type Acceptance struct {
	Name
	Rule   Value[string]
	At     Value[string]
	Until  Value[Date]
	Reason Value[string]
}

// LicenseRow is one row of license.csv: what the club adds to the license tables of
// its region, or takes away. Package license reads its columns.
type LicenseRow struct {
	Name
	Row Value[string] // as CSV, in the order of LicenseColumns
}

// SeparationRow is one row of separation.csv: what the club's coordinator asks between two
// repeaters. Package rf reads its columns.
type SeparationRow struct {
	Name
	Row Value[string] // as CSV, in the order of SeparationColumns
}

// Neighbor is a repeater that somebody else answers for: one row of a neighbor list.
type Neighbor struct {
	Name
	Callsign  Value[signal.Callsign]
	Label     Value[string]
	Output    Value[signal.Hertz]
	Input     Value[signal.Hertz]
	Tone      Value[signal.Tone]
	ColorCode Value[signal.ColorCode]
	Grid      Value[signal.Grid]
	Lat       Value[signal.MicroDegrees]
	Lon       Value[signal.MicroDegrees]
	Height    Value[signal.Meters]
	ERP       Value[signal.Power]
	Source    Value[string] // who says so
	Date      Value[Date]   // as of when
}

// Coordination is what a frequency coordinator remarked about a repeater.
type Coordination struct {
	Name
	Repeater Value[string]
	With     Value[string] // the other party: the key of a repeater or a callsign; none: whoever it is
	By       Value[string]
	Date     Value[Date]
	Text     Value[string]
}

// TransmitOn is the frequency that a member sends on through the repeater: the
// input as written, or output plus split. Zero when the plan does not say, or
// when the split leads to no frequency at all.
func (r *Repeater) TransmitOn() signal.Hertz {
	switch {
	case r.Input.IsSet():
		return r.Input.V
	case r.Output.IsSet() && r.Split.IsSet():
		if input := r.Output.V + signal.Hertz(r.Split.V); input.IsFrequency() {
			return input
		}
	}
	return 0
}

// InputPlace is where the plan says what the input is: the key input, or split.
func (r *Repeater) InputPlace() Place {
	switch {
	case r.Input.Written():
		return r.Input.At
	case r.Split.Written():
		return r.Split.At
	}
	return r.Place()
}

// Called is the label, or the key where there is none.
func (r *Repeater) Called() string { return r.Label.Or(r.Key.V) }

// Called is the callsign and the label, or what there is of them; or the output.
func (n *Neighbor) Called() string {
	if name := strings.TrimSpace(string(n.Callsign.Or("")) + " " + n.Label.Or("")); name != "" {
		return name
	}
	return n.Output.V.String() + " MHz"
}

// Called is the label, or the key where there is none.
func (g *Group) Called() string { return g.Label.Or(g.Key.V) }

// Called is the label, or the key where there is none.
func (z *Zone) Called() string { return z.Label.Or(z.Key.V) }

// Called is the label, or the key where there is none.
func (r *Radio) Called() string { return r.Label.Or(r.Key.V) }
