package plandiff

import (
	"slices"

	"passband.example/plandiff/plan"
)

// A Fact is one respect in which a channel is what it is, in the words in which
// an Aspect tells that it differs.
type Fact struct {
	Name   string
	Value  string
	Weight plan.Weight
	From   []Written // the fields that say so; none where it follows from what is not written
}

// Written is a field of a record, and where it stands.
type Written struct {
	Thing plan.Thing
	Field string
	Item  string // where it is only one item of a list that matters
	At    plan.Place
}

// Facts gives what a radio needs to know of a channel of x. What the plan does
// not say is left out.
func Facts(x *plan.Expansion, c *plan.Channel) []Fact {
	var facts []Fact
	for _, a := range aspects {
		value := a.say(nil, c, false)
		if value == "" {
			continue
		}
		f := Fact{Name: a.name, Value: value, Weight: a.weight, From: saying(c, a.name)}
		switch a.name {
		case "slot":
			f.From = onSlot(c, f.From)
		case "listens for":
			f.From = append(f.From, listened(x, c)...)
		}
		facts = append(facts, f)
	}
	return facts
}

// onSlot names the item that puts a group on a slot of a repeater.
func onSlot(c *plan.Channel, from []Written) []Written {
	for i, w := range from {
		if w.Thing.Kind != plan.KindRepeater {
			continue
		}
		for _, item := range plan.SectionOf(plan.KindRepeater).Field(w.Field).Items(c.Repeater) {
			if item.Text == c.GroupKey {
				from[i].Item, from[i].At = item.Text, item.At
			}
		}
	}
	return from
}

// listened gives the lists of groups that a channel listens for.
func listened(x *plan.Expansion, c *plan.Channel) []Written {
	if l, ok := x.Plan.ReceiveLists.Find(c.ReceiveList); ok {
		return writtenIn(l, []string{"groups"})
	}
	switch {
	case c.Repeater == nil || c.ReceiveList == plan.ListenNone:
		return nil
	case c.ReceiveList == plan.ListenRepeater:
		return writtenIn(c.Repeater, []string{"dmr.slot1", "dmr.slot2"})
	}
	return writtenIn(c.Repeater, []string{"dmr.slot" + c.Slot.String()})
}

// saying finds the fields that say a fact: those of the channel itself, else those
// of its repeater and group.
func saying(c *plan.Channel, name string) []Written {
	fields := fieldsOf(c, name)
	if c.Spec != nil {
		if own := writtenIn(c.Spec, fields); len(own) > 0 || c.Repeater == nil {
			return own
		}
	}
	var found []Written
	if c.Repeater != nil {
		found = writtenIn(c.Repeater, fields)
	}
	if c.Group != nil {
		found = append(found, writtenIn(c.Group, fields)...)
	}
	return found
}

func writtenIn(r plan.Record, fields []string) []Written {
	var found []Written
	s := plan.SectionOf(r.Thing().Kind)
	for i := range s.Fields {
		if f := &s.Fields[i]; slices.Contains(fields, f.Name) {
			if items := f.Items(r); len(items) > 0 {
				found = append(found, Written{Thing: r.Thing(), Field: f.Name, At: items[0].At})
			}
		}
	}
	return found
}

// fieldsOf names the fields, of whatever kind of record, that say a fact.
func fieldsOf(c *plan.Channel, name string) []string {
	side := string(c.Mode)
	switch name {
	case "label", "power":
		return []string{name}
	case "receive":
		return []string{"simplex", "receive", "output"}
	case "transmit":
		return []string{"simplex", "transmit", "input"}
	case "mode":
		return []string{side}
	case "width":
		return []string{"fm.width"}
	case "tone sent":
		return []string{"fm.tone.send"}
	case "tone received":
		return []string{"fm.tone.receive"}
	case "color code":
		return []string{"dmr.color_code"}
	case "slot":
		return []string{"dmr.slot", "dmr.slot" + c.Slot.String()}
	case "group":
		return []string{"id", "call", "dmr.group"}
	case "listens for":
		return []string{"dmr.receive_list"}
	case "scan list":
		return []string{"scan_list"}
	case "time-out":
		return []string{"timeout_s"}
	case "access", "privacy":
		return []string{side + "." + name}
	}
	return nil
}
