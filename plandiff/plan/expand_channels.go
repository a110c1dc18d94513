package plan

import (
	"slices"

	"passband.example/plandiff/signal"
)

var slotNames = [2]string{"1", "2"}

// repeaterPaths makes the channels of all talk paths of a repeater: its FM
// side, then each group of time slot 1 and of time slot 2.
func (e *expander) repeaterPaths(r *Repeater) []*Channel {
	var paths []*Channel
	if r.FM.Present.IsSet() {
		paths = append(paths, e.fmPath(r))
	}
	for i := range r.DMR.Slots {
		var seen nameSet
		for j := range r.DMR.Slots[i] {
			if group := &r.DMR.Slots[i][j]; group.IsSet() && seen.add(group.V) {
				paths = append(paths, e.dmrPath(r, i, group))
			}
		}
	}
	return paths
}

func (e *expander) ofRepeater(r *Repeater, path string) *Channel {
	c := e.channel()
	c.Name, c.Path, c.Repeater = path, path, r
	c.Receive, c.Transmit = r.Output.Or(0), r.TransmitOn()
	c.ScanList, c.Power, c.Timeout, c.When = r.Extra.ScanList.Or(""), r.Extra.Power.Or(""), r.Extra.Timeout.Or(0), r.When.Or("")
	c.At = r.Place()
	c.Because = append(c.Because, Cause{r.Thing(), r.Place()})
	return c
}

func (e *expander) fmPath(r *Repeater) *Channel {
	c := e.ofRepeater(r, r.Key.V+"/"+string(ModeFM))
	c.At, c.Label = r.FM.Present.At, r.Called()+" FM"
	c.useFM(r.FM)
	return c
}

func (e *expander) dmrPath(r *Repeater, slot int, group *Value[string]) *Channel {
	c := e.ofRepeater(r, r.Key.V+"/"+slotNames[slot]+"/"+group.V)
	c.At, c.Mode, c.GroupKey = group.At, ModeDMR, group.V
	c.ColorCode, c.Slot = r.DMR.ColorCode, signal.Slot(slot+1)
	c.Access, c.Privacy = r.DMR.Access.Or(""), r.DMR.Privacy.Or(false)
	c.Because[0].At = group.At
	called := group.V
	if g, ok := e.plan().Groups.Find(group.V); ok {
		c.Group, called, c.When = g, g.Called(), g.When.Or(c.When)
		c.Because = append(c.Because, Cause{g.Thing(), g.Place()})
	}
	c.Label = r.Called() + " " + called
	e.listen(c, r.DMR.ReceiveList.Or(ListenSlot))
	return c
}

func (c *Channel) useFM(fm *FM) {
	c.Mode = ModeFM
	c.Wide = fm.Width.Or("wide") == "wide"
	c.ToneSend = fm.ToneSend.Or(signal.Tone{})
	c.ToneReceive = fm.ToneReceive.Or(signal.Tone{})
	c.Access = fm.Access.Or("")
}

// listen works out which groups a channel listens for.
func (e *expander) listen(c *Channel, list string) {
	c.ReceiveList, c.Listens = list, nil
	switch {
	case list == ListenNone:
	case list == ListenSlot && c.Repeater != nil:
		c.Listens = e.groupsOf(c.Repeater, int(c.Slot)-1, int(c.Slot)-1)
	case list == ListenRepeater && c.Repeater != nil:
		c.Listens = e.groupsOf(c.Repeater, 0, 1)
	default:
		if l, ok := e.plan().ReceiveLists.Find(list); ok {
			c.Listens = e.groupsIn(l)
			c.Because = append(c.Because, Cause{l.Thing(), l.Place()})
		}
	}
}

// carried is the groups that a repeater carries on some of its slots.
type carried struct {
	by          *Repeater
	first, last int
	groups      []string
}

// groupsOf gives the groups that a repeater carries on its slots from first to last.
func (e *expander) groupsOf(r *Repeater, first, last int) []string {
	if c := &e.carried; c.by == r && c.first == first && c.last == last { // the channels of a slot come one after the other
		return c.groups
	}
	key := r.Key.V + "/" + slotNames[first] + slotNames[last]
	groups := e.remembered(key, func() []Value[string] {
		return slices.Concat(r.DMR.Slots[first : last+1]...)
	})
	e.carried = carried{r, first, last, groups}
	return groups
}

func (e *expander) groupsIn(l *ReceiveList) []string {
	return e.remembered(l.Key.V, func() []Value[string] { return l.Groups })
}

// remembered makes a list of groups once, however many channels listen to it.
// Only what can be received as a group call belongs in it.
func (e *expander) remembered(key string, groups func() []Value[string]) []string {
	if keys, ok := e.listens[key]; ok {
		return keys
	}
	var keys []string
	for _, g := range groups() {
		if g.IsSet() && e.isGroupCall(g.V) {
			keys = append(keys, g.V)
		}
	}
	slices.Sort(keys)
	keys = slices.Compact(keys)
	e.listens[key] = keys
	return keys
}

// isGroupCall reports whether calls to a group are group calls, as they are
// where nothing is known of it. Private calls and calls to all reach a radio
// without a receive list.
func (e *expander) isGroupCall(key string) bool {
	g, ok := e.plan().Groups.Find(key)
	return !ok || g.Call.Or("group") == "group"
}

// direct makes the channel of a spec that is on no repeater.
func (e *expander) direct(spec *ChannelSpec) *Channel {
	c := e.channel()
	c.Path, c.Label = spec.Key.V, spec.Key.V
	c.Receive, c.Transmit = spec.Simplex.Or(spec.Receive.Or(0)), spec.Simplex.Or(0)
	if spec.DMR.Present.IsSet() && !spec.FM.Present.IsSet() {
		c.Mode, c.Slot = ModeDMR, spec.DMR.Slot.Or(1)
		c.ColorCode = spec.DMR.ColorCode
		e.call(c, spec.DMR.Group)
		e.listen(c, ListenNone)
	} else {
		c.useFM(spec.FM)
	}
	return e.specialise(c, spec)
}

func (e *expander) call(c *Channel, group Value[string]) {
	if !group.IsSet() {
		return
	}
	c.GroupKey = group.V
	if g, ok := e.plan().Groups.Find(group.V); ok {
		c.Group, c.When = g, g.When.Or("")
		c.Because = append(c.Because, Cause{g.Thing(), g.Place()})
	}
}

// specialise makes a channel what a spec says of it, which may have named the
// talk path through other channels.
func (e *expander) specialise(s *Channel, spec *ChannelSpec, via ...*ChannelSpec) *Channel {
	s.Name, s.Spec, s.At = spec.Key.V, spec, spec.Place()
	for _, v := range via {
		s.Because = append(s.Because, Cause{v.Thing(), v.Place()})
	}
	s.Because = append(s.Because, Cause{spec.Thing(), spec.Place()})
	s.Label = spec.Label.Or(s.Label)
	s.When = spec.When.Or(s.When)
	s.Power = spec.Extra.Power.Or(s.Power)
	s.Timeout = spec.Extra.Timeout.Or(s.Timeout)
	s.ScanList = spec.Extra.ScanList.Or(s.ScanList)
	if s.Mode == ModeDMR {
		s.Access, s.Privacy = spec.DMR.Access.Or(s.Access), spec.DMR.Privacy.Or(s.Privacy)
		if spec.DMR.ReceiveList.IsSet() {
			s.Because = slices.DeleteFunc(s.Because, func(c Cause) bool { return c.Thing.Kind == KindReceiveList })
			e.listen(s, spec.DMR.ReceiveList.V)
		}
	} else {
		s.Access = spec.FM.Access.Or(s.Access)
	}
	if !spec.Transmit.Or(true) {
		s.Transmit = 0
	}
	return s
}
