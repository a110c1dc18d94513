package plan

import "passband.example/plandiff/signal"

// An Expansion is a plan worked out into what a radio holds.
type Expansion struct {
	Plan      *Plan
	Channels  []*Channel // by name, each repeater's together: fm, slot 1, slot 2
	Zones     []*ZoneChannels
	ScanLists []*ScanChannels
	Fits      []*Fit // one a class of radio

	Unresolved []Unresolved // references that lead nowhere
	Cycles     []Cycle      // references that lead back to themselves
	Overflow   Place        // where an entry asked for more than MaxMembers; zero if none did

	byName map[string]*Channel
	byPath map[string][]*Channel // of talk paths whose channel is not the one with that name alone
}

// A Channel is one memory in a radio: a talk path, with all that a radio needs
// to use it.
type Channel struct {
	Name string // its key, or its talk path where nobody wrote it
	Path string // ridge/1/statewide, ridge/fm, or the key of a simplex channel

	Spec     *ChannelSpec // nil where nobody wrote it
	Repeater *Repeater    // nil for simplex and receive-only channels
	Group    *Group       // what it calls; nil for FM, or where the group is unknown
	GroupKey string

	Label    string
	Mode     Mode
	Receive  signal.Hertz // zero where the plan does not say
	Transmit signal.Hertz // zero: never
	Wide     bool         // FM with 5 kHz deviation rather than 2.5

	ToneSend    signal.Tone
	ToneReceive signal.Tone
	ColorCode   Value[signal.ColorCode]
	Slot        signal.Slot
	Privacy     bool // speech is encoded so that others can't hear it

	ReceiveList string   // slot, repeater, none, or the key of a receive list
	Listens     []string // the keys of the groups it listens for, sorted

	ScanList string
	Power    string
	Timeout  int // seconds, 0 where the plan does not say
	Access   string
	When     string // when to use it, for people: no radio holds it

	At      Place   // the line that makes it a channel of its own
	Because []Cause // every record that it is made of, and where

	index int32
}

// Index tells where the channel stands in Expansion.Channels.
func (c *Channel) Index() int { return int(c.index) }

// A Cause is a record that makes something what it is, and the line that does.
type Cause struct {
	Thing Thing
	At    Place
}

// Thing names the channel as a thing.
func (c *Channel) Thing() Thing { return Thing{KindChannel, c.Name} }

// A Member is a channel in a zone or a scan list, and the entry that put it there.
type Member struct {
	Channel *Channel
	Entry   string
	At      Place
}

// ZoneChannels is a zone with its channels in order.
type ZoneChannels struct {
	Zone    *Zone
	Members []Member
	Twice   []Member // channels named again by an entry of their own
}

// ScanChannels is a scan list with its channels in order.
type ScanChannels struct {
	List     *ScanList
	Members  []Member
	Twice    []Member
	Priority *Channel // nil where there is none
}

// Unresolved is a reference that leads nowhere.
type Unresolved struct {
	From Thing  // the record that holds it
	Kind string // what was looked for: group, channel, talk path, zone, ...
	Text string // as written
	At   Place
	Near string // the one that was most likely meant, or ""

	OnlyNear bool // no other is as near: among talk paths, no other of that repeater
}

// Cycle is a reference that leads back to the record that holds it.
type Cycle struct {
	Through []Thing // from the record, through others, back to it
	At      Place
}

// Find gives the channel with this name: a key, or a talk path.
func (x *Expansion) Find(name string) (*Channel, bool) {
	c, ok := x.byName[name]
	return c, ok
}

// OnPath gives the channels of a talk path.
func (x *Expansion) OnPath(path string) []*Channel {
	if several, ok := x.byPath[path]; ok {
		return several
	}
	if c, ok := x.byName[path]; ok && c.Path == path {
		return x.alone(c)
	}
	return nil
}

// alone gives a channel as a list of one.
func (x *Expansion) alone(c *Channel) []*Channel { return x.Channels[c.index : c.index+1 : c.index+1] }
