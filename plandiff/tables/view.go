package tables

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A view is a plan as one class of radio holds it, or all of it where no class is named.
type view struct {
	x   *plan.Expansion
	fit *plan.Fit // nil: the whole plan

	numbers map[*plan.Channel]int
	zones   map[*plan.Channel][]*plan.Zone
	lists   map[plan.Thing][]*plan.Channel // what zones and scan lists come to
	heard   []*heard
	listens map[string]*heard // by the groups of it
	people  map[string]string // radio IDs by callsign
}

// newView looks at a plan. The radio is the key of a class, or "".
func newView(x *plan.Expansion, radio string) (*view, error) {
	v := &view{x: x, lists: map[plan.Thing][]*plan.Channel{}}
	if radio != "" {
		i := slices.IndexFunc(x.Fits, func(f *plan.Fit) bool { return f.Radio.Key.V == radio })
		if i < 0 {
			return nil, noRadio(x.Plan, radio)
		}
		v.fit = x.Fits[i]
	}
	v.readLists()
	v.readChannels()
	v.readHeard()
	return v, nil
}

func (v *view) readLists() {
	if v.fit != nil {
		for _, z := range v.fit.Zones {
			v.lists[z.Zone.Thing()] = z.Channels
		}
		for _, s := range v.fit.ScanLists {
			v.lists[s.List.Thing()] = s.Channels
		}
		return
	}
	for _, z := range v.x.Zones {
		v.lists[z.Zone.Thing()] = channelsOf(z.Members)
	}
	for _, s := range v.x.ScanLists {
		v.lists[s.List.Thing()] = channelsOf(s.Members)
	}
}

func channelsOf(members []plan.Member) []*plan.Channel {
	channels := make([]*plan.Channel, len(members))
	for i, m := range members {
		channels[i] = m.Channel
	}
	return channels
}

func (v *view) readChannels() {
	v.numbers = make(map[*plan.Channel]int, len(v.channels()))
	for i, c := range v.channels() {
		v.numbers[c] = i + 1
	}
	v.zones = make(map[*plan.Channel][]*plan.Zone)
	for _, z := range v.x.Zones { // by key, whatever the order of the map
		for _, c := range v.lists[z.Zone.Thing()] {
			v.zones[c] = append(v.zones[c], z.Zone)
		}
	}
}

func (v *view) channels() []*plan.Channel {
	if v.fit != nil {
		return v.fit.Channels
	}
	return v.x.Channels
}

func (v *view) channelItems() []item {
	items := make([]item, len(v.channels()))
	for i, c := range v.channels() {
		items[i].channel = c
	}
	return items
}

// members gives the channels of a zone or a scan list.
func (v *view) members(t plan.Thing) []*plan.Channel { return v.lists[t] }

// named gives the channel that a key or a talk path names.
func (v *view) named(name string) (*plan.Channel, bool) {
	if c, ok := v.x.Find(name); ok {
		return c, true
	}
	if on := v.x.OnPath(name); len(on) > 0 {
		return on[0], true
	}
	return nil, false
}

// cut shortens a label to what the radio shows.
func (v *view) cut(label string) string {
	if v.fit == nil {
		return label
	}
	return v.fit.Cut(label)
}

// cutLabels tells how many labels of channels the radio shows only a part of, and how many
// of those are the same then.
func (v *view) cutLabels() []string {
	cut, alike := 0, 0
	shown := make(map[string]bool)
	for _, c := range v.channels() {
		label := v.cut(c.Label)
		if label != c.Label {
			cut++
		}
		if shown[label] {
			alike++
		}
		shown[label] = true
	}
	var said []string
	if cut > 0 {
		said = append(said, fmt.Sprintf("%d of %d labels of channels are cut to the %d characters of the radio", cut, len(v.channels()), v.fit.Radio.LabelLength.Or(0)))
	}
	if alike > 0 {
		said = append(said, fmt.Sprintf("%d channels have a label that another has too: a table that names channels by label cannot tell them apart", alike))
	}
	return said
}

// called gives the label of a record as the radio shows it, or its key.
func (v *view) called(r plan.Record) string {
	if label := plan.SectionOf(r.Thing().Kind).Field("label").Texts(r, nil); len(label) > 0 {
		return v.cut(label[0])
	}
	return v.cut(r.Thing().Key)
}

func (v *view) groupLabel(key string) string {
	if g, ok := v.x.Plan.Groups.Find(key); ok {
		return v.called(g)
	}
	return key
}

func (v *view) groupID(key string) string {
	if g, ok := v.x.Plan.Groups.Find(key); ok && g.ID.IsSet() {
		return g.ID.V.String()
	}
	return key
}

// callID gives the number that a shortcut calls.
func (v *view) callID(call string) string {
	if _, ok := v.x.Plan.Groups.Find(call); ok {
		return v.groupID(call)
	}
	if v.people == nil {
		v.people = make(map[string]string)
		for _, o := range v.x.Plan.Operators.All() {
			if o.ID.IsSet() && o.Callsign.IsSet() && v.people[string(o.Callsign.V)] == "" {
				v.people[string(o.Callsign.V)] = o.ID.V.String()
			}
		}
	}
	if id := v.people[strings.ToUpper(call)]; id != "" {
		return id
	}
	return call
}

// records gives the records of a section that the radio has a use for, by key.
func (v *view) records(s *plan.Section) []item {
	all := s.All(v.x.Plan)
	if s.HasOwnKeys() {
		slices.SortFunc(all, func(a, b plan.Record) int { return strings.Compare(a.Thing().Key, b.Thing().Key) })
	}
	has := v.use(s.Kind)
	items := make([]item, 0, len(all))
	for _, r := range all {
		if has == nil || has(r) {
			items = append(items, item{record: r})
		}
	}
	return items
}

// use tells which records of a kind the radio has a use for; nil: all.
func (v *view) use(kind plan.Kind) func(plan.Record) bool {
	if v.fit == nil {
		return nil
	}
	used := make(map[plan.Thing]bool)
	switch kind {
	case plan.KindZone, plan.KindScanList:
		for t := range v.lists {
			used[t] = true
		}
	case plan.KindGroup:
		for _, key := range v.fit.Groups {
			used[plan.Thing{Kind: kind, Key: key}] = true
		}
	case plan.KindRadio:
		used[v.fit.Radio.Thing()] = true
	case plan.KindRepeater, plan.KindChannel, plan.KindReceiveList:
		for _, c := range v.fit.Channels {
			for _, cause := range c.Because {
				used[cause.Thing] = true
			}
		}
	default:
		return nil
	}
	return func(r plan.Record) bool { return used[r.Thing()] }
}
