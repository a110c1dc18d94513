package tables

import (
	"fmt"
	"strconv"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// apart gives the distance from output to input; "0" where they are one.
func apart(output, input signal.Hertz) []string {
	if output == input {
		return []string{"0"}
	}
	return []string{signal.Split(input - output).String()}
}

// channelValues shows what a radio holds of one channel.
func channelValues() []*value {
	of := func(name string, k kind, kind plan.Kind, field, doc string, get func(v *view, c *plan.Channel) string) *value {
		w := &value{name: name, doc: doc, kind: k, field: name, normal: asIs,
			get: func(v *view, it item) []string { return texts(get(v, it.channel)) }}
		if field != "" {
			w.normal = normalOf(kind, field)
		}
		return w
	}
	const rep, own, group = plan.KindRepeater, plan.KindChannel, plan.KindGroup
	values := []*value{
		of("number", number, 0, "", "its place in the radio, from 1; not read", func(v *view, c *plan.Channel) string { return strconv.Itoa(v.numbers[c]) }),
		of("key", words, own, "path", "its key, or its talk path where nobody wrote it", func(_ *view, c *plan.Channel) string { return c.Name }),
		of("path", words, own, "path", "its talk path", func(_ *view, c *plan.Channel) string { return c.Path }),
		of("label", words, own, "label", "what the radio shows", func(v *view, c *plan.Channel) string { return v.cut(c.Label) }),
		closed(of("mode", words, 0, "", "fm or dmr", func(_ *view, c *plan.Channel) string { return string(c.Mode) }), "fm", "dmr"),
		of("output", frequency, rep, "output", "what the radio receives", func(_ *view, c *plan.Channel) string { return first(mhz(c.Receive)) }),
		of("input", frequency, rep, "input", "what the radio sends on; none where it never does", func(_ *view, c *plan.Channel) string { return first(mhz(c.Transmit)) }),
		of("split", distance, 0, "", "input less output; 0 for simplex, none where it never sends", func(_ *view, c *plan.Channel) string { return first(splitOfChannel(c)) }),
		closed(of("split.direction", words, 0, "", "up, down, or none for simplex; nothing where it never sends", func(_ *view, c *plan.Channel) string { return direction(first(splitOfChannel(c))) }), "up", "down", "none"),
		of("split.size", distance, 0, "", "the split without its sign", func(_ *view, c *plan.Channel) string { return strings.TrimLeft(first(splitOfChannel(c)), "+-") }),
		of("transmit", words, own, "transmit", "yes, or no where it never sends", func(_ *view, c *plan.Channel) string { return yesNo(c.Transmit != 0) }),
		of("width", words, own, "fm.width", "wide or narrow", func(_ *view, c *plan.Channel) string { return width(c) }),
	}
	values = append(values, toneValues("tone.send", "the tone that the radio sends", func(c *plan.Channel) signal.Tone { return c.ToneSend })...)
	values = append(values, toneValues("tone.receive", "the tone that opens its squelch", func(c *plan.Channel) signal.Tone { return c.ToneReceive })...)
	return append(values,
		of("color_code", number, rep, "dmr.color_code", "0 to 15", func(_ *view, c *plan.Channel) string { return colorCode(c) }),
		of("slot", number, own, "dmr.slot", "1 or 2", func(_ *view, c *plan.Channel) string { return slot(c) }),
		of("group", words, own, "dmr.group", "the key of the group it calls", func(_ *view, c *plan.Channel) string { return c.GroupKey }),
		of("group.id", number, group, "id", "the number of the group it calls", func(_ *view, c *plan.Channel) string { return groupNumber(c) }),
		of("group.label", words, group, "label", "what the group it calls is called", func(v *view, c *plan.Channel) string { return groupCalled(v, c) }),
		of("group.call", words, group, "call", "group, private or all", func(_ *view, c *plan.Channel) string { return groupCall(c) }),
		of("receive_list", words, own, "dmr.receive_list", "what it listens for: slot, repeater, none, or the key of a receive list", func(_ *view, c *plan.Channel) string { return c.ReceiveList }),
		of("listens", words, 0, "", "the label of the listening list; shown alone", func(v *view, c *plan.Channel) string { return listens(v, c) }),
		of("scan_list", words, own, "scan_list", "the key of the scan list that starts from it", func(_ *view, c *plan.Channel) string { return c.ScanList }),
		of("scan_list.label", words, 0, "", "what that scan list is called", func(v *view, c *plan.Channel) string { return scanListCalled(v, c.ScanList) }),
		of("power", number, own, "power", "low, medium, high or watts", func(_ *view, c *plan.Channel) string { return c.Power }),
		of("timeout_s", number, own, "timeout_s", "the longest transmission, in s", func(_ *view, c *plan.Channel) string { return seconds(c.Timeout) }),
		of("access", words, 0, "", "when a radio may start to send", func(_ *view, c *plan.Channel) string { return c.Access }),
		of("privacy", words, own, "dmr.privacy", "yes where speech is encoded so that others can't hear it", func(_ *view, c *plan.Channel) string { return privacy(c) }),
		of("repeater", words, own, "dmr.group", "the key of its repeater", func(_ *view, c *plan.Channel) string { return repeaterKey(c) }),
		of("repeater.label", words, rep, "label", "what its repeater is called", func(_ *view, c *plan.Channel) string { return repeaterCalled(c) }),
		of("callsign", words, rep, "callsign", "what its repeater identifies with", func(_ *view, c *plan.Channel) string { return callsign(c) }),
		&value{name: "zones", doc: "the keys of the zones it is in", many: true, field: "zones", normal: asIs,
			get: func(v *view, it item) []string {
				return eachZone(v, it, func(z *plan.Zone) string { return z.Key.V })
			}},
		&value{name: "zones.label", doc: "what the zones it is in are called", many: true, field: "zones", normal: asIs,
			get: func(v *view, it item) []string {
				return eachZone(v, it, func(z *plan.Zone) string { return v.called(z) })
			}},
	)
}

// toneValues shows a tone whole, and in the parts that some tables have.
func toneValues(name, doc string, of func(*plan.Channel) signal.Tone) []*value {
	part := func(suffix string, k kind, doc string, show func(signal.Tone) string) *value {
		return &value{name: name + suffix, doc: doc, kind: k, normal: asIs, field: name,
			get: func(_ *view, it item) []string { return texts(show(of(it.channel))) }}
	}
	whole := part("", tone, doc, func(t signal.Tone) string {
		if t.IsZero() {
			return ""
		}
		return t.String()
	})
	whole.normal = normalOf(plan.KindRepeater, "fm."+name)
	return []*value{
		whole,
		closed(part(".type", words, "none, ctcss or dcs", toneType), "none", "ctcss", "dcs"),
		part(".ctcss", number, "the hertz of a CTCSS tone", func(t signal.Tone) string {
			if c, ok := t.CTCSS(); ok {
				return c.String()
			}
			return ""
		}),
		part(".dcs", words, "the three digits of a DCS code", func(t signal.Tone) string {
			if d, ok := t.DCS(); ok {
				return d.String()[1:4]
			}
			return ""
		}),
		closed(part(".polarity", words, "normal or inverted", polarity), "normal", "inverted"),
	}
}

func toneType(t signal.Tone) string {
	if _, ok := t.DCS(); ok {
		return "dcs"
	}
	if t.IsZero() {
		return "none"
	}
	return "ctcss"
}

func polarity(t signal.Tone) string {
	switch d, ok := t.DCS(); {
	case !ok:
		return ""
	case d.Inverted:
		return "inverted"
	}
	return "normal"
}

// closed gives a value a closed list of words, in any case.
func closed(v *value, words ...string) *value {
	v.normal = func(text string) (string, error) {
		for _, w := range words {
			if strings.EqualFold(strings.TrimSpace(text), w) {
				return w, nil
			}
		}
		return "", fmt.Errorf("%q is not known here; write one of: %s", clip(text), strings.Join(words, ", "))
	}
	return v
}
