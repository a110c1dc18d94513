package generate

import (
	"fmt"
	"slices"
)

// An Edit is one edit of a plan, as a person makes it. It gives the subject
// of its commit.
type Edit func(*Club) string

// Usual are the edits that a club makes, as often as it makes them.
var Usual = slices.Concat(
	slices.Repeat([]Edit{(*Club).Change}, 12),
	[]Edit{(*Club).Retune, (*Club).Retune, (*Club).Add, (*Club).Remove, (*Club).Hire},
	[]Edit{(*Club).MoveMember, (*Club).MoveRecord, (*Club).RenameChannel, (*Club).RenameGroup, (*Club).RenameRepeater},
)

// Edit makes one of the usual edits.
func (c *Club) Edit() string { return Usual[c.random.IntN(len(Usual))](c) }

// Change gives a channel another frequency or power.
func (c *Club) Change() string {
	ch := one(c, c.channels)
	ch.sheet.text = nil
	if c.random.IntN(2) == 0 {
		ch.power = map[string]string{"high": "low", "low": "high"}[ch.power]
		return "set the power of " + ch.key
	}
	ch.step = (ch.step + 1 + c.random.IntN(steps-1)) % steps
	return "move " + ch.key
}

// Retune gives a repeater another output, and so another input.
func (c *Club) Retune() string {
	r := one(c, c.repeaters)
	r.retune(c.random)
	r.sheet.text = nil
	return "retune " + r.key
}

// Add adds a channel, in a zone and a file.
func (c *Club) Add() string {
	ch := c.newChannel(c.made)
	c.put(ch, one(c, c.sheets))
	z := one(c, c.zones)
	z.members = append(z.members, member{channel: ch})
	z.sheet.text = nil
	return "add " + ch.key
}

// Remove takes a channel away, from its zones too.
func (c *Club) Remove() string {
	ch := one(c, c.channels)
	is := func(other *channel) bool { return other == ch }
	c.channels = slices.DeleteFunc(c.channels, is)
	ch.sheet.channels = slices.DeleteFunc(ch.sheet.channels, is)
	for _, z := range c.zones {
		z.members = slices.DeleteFunc(z.members, func(m member) bool { return m.channel == ch })
	}
	c.touchAll()
	return "remove " + ch.key
}

// Hire adds an operator to a club that has some.
func (c *Club) Hire() string {
	if len(c.operators) == 0 {
		return c.Change()
	}
	c.hire(len(c.operators))
	return "welcome " + c.operators[len(c.operators)-1].callsign
}

// MoveMember moves a member of a zone to its end.
func (c *Club) MoveMember() string {
	z := one(c, c.zones)
	i := c.random.IntN(len(z.members) - 1)
	m := z.members[i]
	z.members = append(slices.Delete(z.members, i, i+1), m)
	z.sheet.text = nil
	return fmt.Sprintf("move %s to the end of %s", m, z.key)
}

// MoveRecord moves a channel to another file, or to the end of the only one.
func (c *Club) MoveRecord() string {
	ch, to := one(c, c.channels), one(c, c.sheets)
	from := ch.sheet
	from.channels = slices.DeleteFunc(from.channels, func(other *channel) bool { return other == ch })
	to.channels = append(to.channels, ch)
	from.text, to.text, ch.sheet = nil, nil, to
	return "keep " + ch.key + " in " + to.name
}

// RenameChannel gives a channel another key.
func (c *Club) RenameChannel() string { return c.rename(&one(c, c.channels).key) }

// RenameGroup gives a group another key.
func (c *Club) RenameGroup() string { return c.rename(&one(c, c.groups).key) }

// RenameRepeater gives a repeater another key.
func (c *Club) RenameRepeater() string { return c.rename(&one(c, c.repeaters).key) }

// RenameAll gives every channel another key.
func (c *Club) RenameAll() string {
	for _, ch := range c.channels {
		c.rename(&ch.key)
	}
	return "name the channels anew"
}

// Lay changes the layout of all text.
func (c *Club) Lay() string {
	c.Style.Reversed = !c.Style.Reversed
	return "turn the sections round"
}

func (c *Club) rename(key *string) string {
	c.touchAll()
	before := *key
	*key += "-b"
	return fmt.Sprintf("rename %s %s", before, *key)
}

// touchAll has every file written anew: what refers to a thing may stand in any.
func (c *Club) touchAll() {
	for _, s := range c.sheets {
		s.text = nil
	}
}

func one[T any](c *Club, of []T) T { return of[c.random.IntN(len(of))] }

// Revise makes the second revision of a measurement: a field of one channel in a hundred is
// changed, and one in 500 each is added, removed, renamed and moved.
func (c *Club) Revise() {
	n := len(c.channels)
	for range n / 100 {
		c.Change()
	}
	for range n / 500 {
		c.Add()
		c.Remove()
		c.RenameChannel()
		c.MoveMember()
	}
}
