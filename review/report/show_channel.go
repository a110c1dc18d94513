package report

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// channel explains a channel.
func (s *shower) channel(c *plan.Channel) {
	s.p.heading(1, strong(c.Label), text(": %s", channelKind(c)))
	s.hears(c)
	s.sends(c)
	if c.Mode == plan.ModeDMR {
		s.digital(c)
	} else {
		s.analog(c)
	}
	s.settings(c)
	if c.When != "" {
		s.point("When to use it", text("%s", c.When))
	}
	s.where(c)
	s.p.heading(2, text("What makes it"))
	for _, b := range c.Because {
		s.p.item(0, Line{code(b.Thing.String())}.and(at(s.d.place(b.At))...)...)
	}
}

func channelKind(c *plan.Channel) string {
	mode := strings.ToUpper(string(c.Mode))
	switch {
	case c.Transmit == 0:
		return "a channel to listen to, in " + mode
	case c.Repeater != nil:
		return fmt.Sprintf("%s through the repeater %s", mode, c.Repeater.Called())
	}
	return mode + " from radio to radio, without a repeater"
}

func (s *shower) hears(c *plan.Channel) {
	switch {
	case c.Receive == 0:
		s.point("Hears", text("the plan does not say on which frequency."))
	case c.Repeater == nil:
		s.point("Hears", text("%s.", megahertz(c.Receive)))
	case c.Repeater.Callsign.IsSet():
		s.point("Hears", text("%s, the output of the repeater, which identifies as %s.", megahertz(c.Receive), c.Repeater.Callsign.V))
	default:
		s.point("Hears", text("%s, the output of the repeater.", megahertz(c.Receive)))
	}
}

func (s *shower) sends(c *plan.Channel) {
	switch {
	case c.Transmit == 0:
		s.point("Sends", text("nothing. The radio must not transmit here."))
	case c.Repeater != nil:
		s.point("Sends", text("on %s, the input of the repeater, %s MHz from its output. The repeater says again on its output what it hears on its input.",
			megahertz(c.Transmit), signal.Split(c.Transmit-c.Receive)))
	default:
		s.point("Sends", text("on the same frequency. It is heard as far as the radio itself reaches."))
	}
}

func (s *shower) analog(c *plan.Channel) {
	switch {
	case c.Transmit == 0:
	case c.ToneSend.IsZero():
		s.point("Tone sent", text("none."))
	default:
		s.point("Tone sent", text("%s, filtered out before anybody hears it; the other end opens only for it.", toneWords(c.ToneSend)))
	}
	if !c.ToneReceive.IsZero() {
		s.point("Tone received", text("%s; the radio stays silent unless it hears this tone.", toneWords(c.ToneReceive)))
	}
	width := "narrow: 2.5 kHz deviation, about 11 kHz on the air."
	if c.Wide {
		width = "wide: 5 kHz deviation, about 16 kHz on the air."
	}
	s.point("Width", text("%s", width))
}

func toneName(t signal.Tone) string {
	if _, ok := t.DCS(); ok {
		return t.String() + " (DCS)"
	}
	return t.String() + " Hz (CTCSS)"
}

// toneWords names a tone, and a DCS code by all of its names.
func toneWords(t signal.Tone) string {
	words := toneName(t)
	dcs, ok := t.DCS()
	if !ok {
		return words
	}
	var same []string
	for _, other := range dcs.Spellings() {
		if other != dcs {
			same = append(same, other.String())
		}
	}
	if len(same) > 0 {
		words += ", the same signal as " + strings.Join(same, " and ")
	}
	return words
}

func (s *shower) digital(c *plan.Channel) {
	if c.ColorCode.IsSet() {
		s.point("Color code", text("%s. A radio hears only its own color code, so that repeaters on one frequency can be told apart.", c.ColorCode.V))
	}
	if c.Slot != 0 {
		s.point("Time slot", text("%s. A DMR channel carries two conversations in turns of 30 ms.", c.Slot))
	}
	if c.Group != nil {
		s.point("Calls", text("%s, %s.", c.Group.Called(), callWords(c.Group)))
	}
	if c.Privacy {
		s.point("Privacy", text("on: others can't hear what is said, which amateur radio does not allow."))
	}
	if len(c.Listens) == 0 || len(c.Listens) == 1 && c.Listens[0] == c.GroupKey {
		s.point("Listens for", text("its own group alone."))
		return
	}
	s.point("Listens for", append(s.groupNames(c.Listens), text("."))...)
}

// callWords says what a call to a group is, with its number.
func callWords(g *plan.Group) string {
	kind := "talkgroup"
	switch g.Call.Or("group") {
	case "private":
		kind = "a private call to"
	case "all":
		kind = "a call to everybody,"
	}
	if !g.ID.IsSet() {
		return kind + " without a number"
	}
	return kind + " " + g.ID.V.String()
}

func (s *shower) settings(c *plan.Channel) {
	if c.Transmit != 0 {
		if c.Power != "" {
			s.point("Power", text("%s. Use no more than the contact needs.", powerWords(c.Power)))
		}
		if c.Timeout > 0 {
			s.point("Time-out", text("the radio stops after %d s of talking, so that a stuck key does not block the channel.", c.Timeout))
		}
		if c.Access != "" {
			s.point("Access", text("%s. %s", c.Access, accessWords(c.Access)))
		}
	}
	if c.ScanList != "" {
		s.point("Scan list", code(c.ScanList))
	}
}

func powerWords(power string) string {
	if strings.Trim(power, "0123456789.") == "" {
		return power + " W"
	}
	return power
}

// accessWords explains when a radio may start to send (ETSI TS 102 361-1 for
// DMR, second-hand; common practice for FM, no source).
func accessWords(access string) string {
	switch access {
	case "always", "impolite":
		return "The radio sends whatever is on the channel."
	case "channel free", "polite to all":
		return "The radio sends only when nothing is on the channel."
	case "tone free":
		return "The radio waits while it hears its own tone."
	case "polite to own color code":
		return "The radio waits for signals of its own color code and no others."
	}
	return ""
}
