package card

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// Hears gives the frequency that the radio listens on, in MHz: the output of a
// repeater.
func (r Row) Hears() string {
	if r.Channel.Receive == 0 {
		return "not said"
	}
	return r.Channel.Receive.String()
}

// Sends gives the frequency that the radio sends on, in MHz: the input of a repeater;
// "same" where it is the one that it hears, "listen only" where it never sends.
func (r Row) Sends() string {
	switch c := r.Channel; {
	case c.Transmit == 0:
		return "listen only"
	case c.Transmit == c.Receive:
		return "same"
	default:
		return c.Transmit.String()
	}
}

// Split gives how far what the radio sends lies from what it hears, in MHz with its
// sign, or "" where it is the same or one of them is not there.
func (r Row) Split() string {
	c := r.Channel
	if c.Transmit == 0 || c.Receive == 0 || c.Transmit == c.Receive {
		return ""
	}
	return signal.Split(c.Transmit - c.Receive).String()
}

// ListensOnly reports whether the radio never sends here.
func (r Row) ListensOnly() bool { return r.Channel.Transmit == 0 }

// Opens says what the other end listens for: a tone, or in DMR color code, slot and
// group.
func (r Row) Opens() string {
	if r.Channel.Mode == plan.ModeDMR {
		return strings.Join(r.digital(), ", ")
	}
	return strings.Join(r.analog(), ", ")
}

func (r Row) analog() []string {
	c, words := r.Channel, []string(nil)
	switch sent, heard := c.ToneSend, c.ToneReceive; {
	case c.Transmit == 0 && heard.IsZero():
	case sent.IsZero() && heard.IsZero():
		words = append(words, "no tone")
	case c.Transmit == 0:
		words = append(words, "hears "+toned(heard))
	case heard.IsZero() || sent.Same(heard):
		words = append(words, toned(sent))
	case sent.IsZero():
		words = append(words, "hears "+toned(heard))
	default:
		words = append(words, toned(sent), "hears "+toned(heard))
	}
	if !c.Wide {
		words = append(words, "narrow")
	}
	return words
}

func toned(t signal.Tone) string {
	if _, digital := t.DCS(); digital {
		return t.String()
	}
	return t.String() + " Hz"
}

func (r Row) digital() []string {
	var words []string
	c := r.Channel
	if c.ColorCode.IsSet() {
		words = append(words, "CC "+c.ColorCode.V.String())
	}
	if c.Slot != 0 {
		words = append(words, "slot "+c.Slot.String())
	}
	switch {
	case c.Group != nil && c.Group.ID.IsSet():
		words = append(words, c.Group.ID.V.String())
	case c.GroupKey != "":
		words = append(words, c.GroupKey)
	}
	return words
}

// When says when to use the channel, or where the plan does not say it what kind of
// channel it is.
func (r Row) When() string {
	if r.Channel.When != "" {
		return r.Channel.When
	}
	return r.Kind()
}

// Kind says how the voice travels: through which repeater, or from radio to radio, and
// in DMR to which group where the label does not name it.
func (r Row) Kind() string {
	c, group := r.Channel, ""
	if c.Group != nil && !strings.Contains(c.Label, c.Group.Called()) {
		group = c.Group.Called() + ", "
	}
	switch {
	case c.Repeater != nil && c.Repeater.Callsign.IsSet():
		return fmt.Sprintf("%sthrough %s, %s", group, c.Repeater.Called(), c.Repeater.Callsign.V)
	case c.Repeater != nil:
		return group + "through " + c.Repeater.Called()
	case c.Transmit == 0:
		return group + "to listen to"
	}
	return group + "from radio to radio"
}

// ListensBecause gives the key of the plan that makes a channel listen only, and where
// it stands; "" for one that sends.
func (r Row) ListensBecause() (key string, at plan.Place) {
	c := r.Channel
	switch {
	case c.Transmit != 0:
		return "", plan.Place{}
	case c.Spec != nil && c.Spec.Transmit.IsSet() && !c.Spec.Transmit.V:
		return "transmit: no", c.Spec.Transmit.At
	case c.Spec != nil && c.Spec.Receive.IsSet():
		return "receive, and nothing to send on", c.Spec.Receive.At
	case c.Repeater != nil:
		return "a repeater without split or input", c.Repeater.Place()
	}
	return "no frequency to send on", c.At
}
