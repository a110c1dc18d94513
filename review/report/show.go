package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// ErrNothing says that a plan has nothing by the name that was asked for.
var ErrNothing = errors.New("the plan has nothing by that name")

// Show explains one thing of a plan in plain words: a channel, a talk path, a
// repeater, a group, a zone or an operator. A name that several things have
// explains each; "group local" asks for one of them. The error is ErrNothing, with
// the nearest name.
func Show(d *Document, name string) (*Page, error) {
	p := new(Page)
	s := shower{d: d, x: d.Expansion, p: p}
	kind, key := askedKind(name)
	found := false
	for _, f := range []struct {
		kind plan.Kind
		show func(string) bool
	}{
		{plan.KindRepeater, s.repeater}, {plan.KindChannel, s.channel}, {plan.KindGroup, s.group},
		{plan.KindZone, s.zone}, {plan.KindOperator, s.operator},
	} {
		if kind == 0 || kind == f.kind {
			found = f.show(key) || found
		}
	}
	if !found {
		near := plan.Nearest(key, s.names())
		if near != "" {
			return nil, fmt.Errorf("%w: %q; did you mean %s?", ErrNothing, Visible(name), near)
		}
		return nil, fmt.Errorf("%w: %q; write the key of a channel, repeater, group or zone, a talk path such as ridge/1/statewide, a callsign or a radio ID", ErrNothing, Visible(name))
	}
	p.paragraph(faint("%s", caution))
	return p, nil
}

// askedKind splits "group local" into its kind and key.
func askedKind(name string) (plan.Kind, string) {
	for _, kind := range []plan.Kind{plan.KindRepeater, plan.KindChannel, plan.KindGroup, plan.KindZone, plan.KindOperator} {
		if key, ok := strings.CutPrefix(name, kind.String()+" "); ok {
			return kind, key
		}
	}
	return 0, name
}

type shower struct {
	d *Document
	x *plan.Expansion
	p *Page
}

// names gives all names that can be shown.
func (s *shower) names() []string {
	var names []string
	for _, c := range s.x.Channels {
		names = append(names, c.Name)
	}
	for _, kind := range []plan.Kind{plan.KindRepeater, plan.KindGroup, plan.KindZone} {
		for _, r := range plan.SectionOf(kind).All(s.x.Plan) {
			names = append(names, r.Thing().Key)
		}
	}
	return names
}

// channel explains a channel by its key, or those on a talk path.
func (s *shower) channel(name string) bool {
	channels := channelsNamed(s.x, name)
	for _, c := range channels {
		s.oneChannel(c)
	}
	return len(channels) > 0
}

// channelsNamed gives the channel with this name and those on this talk path.
func channelsNamed(x *plan.Expansion, name string) []*plan.Channel {
	channels := x.OnPath(name)
	if c, ok := x.Find(name); ok && !slices.Contains(channels, c) {
		channels = append(slices.Clone(channels), c)
	}
	return channels
}

func (s *shower) oneChannel(c *plan.Channel) {
	p := s.p
	p.heading(1, strong(c.Label), text(": "), text("%s", channelKind(c)))
	s.sends(c)
	if c.Mode == plan.ModeDMR {
		s.digital(c)
	} else {
		s.analog(c)
	}
	s.settings(c)
	s.whereFound(c)
	p.heading(2, text("What makes it"))
	for _, b := range c.Because {
		p.item(0, code(b.Thing.String()), faint(" (%s)", s.d.place(b.At)))
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

// sends says what the radio hears and sends.
func (s *shower) sends(c *plan.Channel) {
	p := s.p
	if c.Receive == 0 {
		p.item(0, strong("Hears: "), text("the plan does not say on which frequency"))
	} else {
		line := Line{strong("Hears: "), text("%s", megahertz(c.Receive))}
		if c.Repeater != nil {
			line = append(line, text(", the output of the repeater"))
			if c.Repeater.Callsign.IsSet() {
				line = append(line, text(", which identifies as %s", c.Repeater.Callsign.V))
			}
		}
		p.item(0, line...)
	}
	switch {
	case c.Transmit == 0:
		p.item(0, strong("Sends: "), text("nothing. The radio must not transmit here."))
	case c.Repeater != nil:
		split := signal.Split(c.Transmit - c.Receive)
		p.item(0, strong("Sends: "), text("on %s, the input of the repeater, %s MHz from its output. The repeater says again on its output what it hears on its input.", megahertz(c.Transmit), split))
	default:
		p.item(0, strong("Sends: "), text("on the same frequency. It is heard as far as the radio itself reaches."))
	}
}

func (s *shower) analog(c *plan.Channel) {
	p := s.p
	if c.Transmit != 0 {
		if c.ToneSend.IsZero() {
			p.item(0, strong("Tone sent: "), text("none."))
		} else {
			p.item(0, strong("Tone sent: "), text("%s, too low to be heard; the other end opens only for it.", toneWords(c.ToneSend)))
		}
	}
	if !c.ToneReceive.IsZero() {
		p.item(0, strong("Tone received: "), text("%s; the radio stays silent unless it hears this tone.", toneWords(c.ToneReceive)))
	}
	width := "narrow: 2.5 kHz deviation, about 11 kHz on the air"
	if c.Wide {
		width = "wide: 5 kHz deviation, about 16 kHz on the air"
	}
	p.item(0, strong("Width: "), text("%s.", width))
}

func toneWords(t signal.Tone) string {
	dcs, ok := t.DCS()
	if !ok {
		return t.String() + " Hz (CTCSS)"
	}
	words := t.String() + " (DCS)"
	var same []string
	for _, other := range dcs.Spellings() {
		if other != dcs {
			same = append(same, other.String())
		}
	}
	if len(same) > 0 {
		words += ", the same signal as " + strings.Join(same, ", ")
	}
	return words
}

func (s *shower) digital(c *plan.Channel) {
	p := s.p
	if c.ColorCode.IsSet() {
		p.item(0, strong("Color code: "), text("%s. A radio hears only its own color code, so that repeaters on one frequency can be told apart.", c.ColorCode.V))
	}
	p.item(0, strong("Time slot: "), text("%s. A DMR channel carries two conversations in turns of 30 ms.", c.Slot))
	if c.Group != nil {
		p.item(0, strong("Calls: "), text("%s, %s %s.", c.Group.Called(), callWords(c.Group), c.Group.ID.V))
	}
	if len(c.Listens) > 0 {
		p.item(0, append(Line{strong("Listens for: ")}, s.groupNames(c.Listens)...)...)
	} else {
		p.item(0, strong("Listens for: "), text("its own group alone."))
	}
}

func callWords(g *plan.Group) string {
	switch g.Call.Or("group") {
	case "private":
		return "a private call to"
	case "all":
		return "a call to everybody,"
	}
	return "talkgroup"
}

func (s *shower) groupNames(keys []string) Line {
	var line Line
	for i, key := range keys {
		if i > 0 {
			line = append(line, text(", "))
		}
		if g, ok := s.x.Plan.Groups.Find(key); ok {
			line = append(line, text("%s (%s)", g.Called(), g.ID.V))
		} else {
			line = append(line, code(key))
		}
	}
	return line
}

func (s *shower) settings(c *plan.Channel) {
	p := s.p
	if c.Power != "" && c.Transmit != 0 {
		power := c.Power
		if strings.Trim(power, "0123456789.") == "" {
			power += " W"
		}
		p.item(0, strong("Power: "), text("%s. Use no more than the contact needs.", power))
	}
	if c.Timeout > 0 && c.Transmit != 0 {
		p.item(0, strong("Time-out: "), text("the radio stops after %d s of talking, so that a stuck key does not block the channel.", c.Timeout))
	}
	if c.Access != "" && c.Transmit != 0 {
		p.item(0, strong("Access: "), text("%s. %s", c.Access, accessWords[c.Access]))
	}
	if c.ScanList != "" {
		p.item(0, strong("Scan list: "), code(c.ScanList))
	}
}

// accessWords explains when a radio may start to send (ETSI TS 102 361-1 for
// DMR, second-hand; common practice for FM, no source).
var accessWords = map[string]string{
	"always":                   "The radio sends whatever is on the channel.",
	"channel free":             "The radio sends only when nothing is on the channel.",
	"tone free":                "The radio waits while it hears its own tone.",
	"impolite":                 "The radio sends whatever is on the channel.",
	"polite to all":            "The radio sends only when nothing is on the channel.",
	"polite to own color code": "The radio waits for signals of its own color code and no others.",
}

// whereFound lists the zones of a channel and the radios that can use it.
func (s *shower) whereFound(c *plan.Channel) {
	p := s.p
	p.heading(2, text("Where it is"))
	for _, z := range s.x.Zones {
		for i, m := range z.Members {
			if m.Channel == c {
				p.item(0, text("zone %s, channel %d", z.Zone.Called(), i+1))
			}
		}
	}
	for _, f := range s.x.Fits {
		if slices.Contains(f.Channels, c) {
			p.item(0, text("radio %s shows it as ", f.Radio.Called()), code(f.Label(c)))
		}
		for _, l := range f.LeftOut {
			if l.Channel == c {
				p.item(0, text("radio %s leaves it out: %s", f.Radio.Called(), l.Why))
			}
		}
	}
}

// repeater explains a repeater and lists its talk paths.
func (s *shower) repeater(key string) bool {
	r, ok := s.x.Plan.Repeaters.Find(key)
	if !ok {
		return false
	}
	p := s.p
	p.heading(1, strong(r.Called()), text(": a repeater"), faint(" (%s)", s.d.place(r.Place())))
	if r.Callsign.IsSet() {
		p.item(0, strong("Callsign: "), text("%s", r.Callsign.V))
	}
	if r.Output.IsSet() {
		p.item(0, strong("Output: "), text("%s. Members hear it here.", megahertz(r.Output.V)))
	}
	if in := r.TransmitOn(); in != 0 && r.Output.IsSet() {
		p.item(0, strong("Input: "), text("%s, %s MHz from the output. Members send here.", megahertz(in), signal.Split(in-r.Output.V)))
	}
	if r.DMR.ColorCode.IsSet() {
		p.item(0, strong("Color code: "), text("%s", r.DMR.ColorCode.V))
	}
	for i := range r.DMR.Slots {
		var carried []string
		for _, g := range r.DMR.Slots[i] {
			carried = append(carried, g.V)
		}
		if len(carried) > 0 {
			p.item(0, append(Line{strong(fmt.Sprintf("Slot %d: ", i+1))}, s.groupNames(carried)...)...)
		}
	}
	if r.Note.IsSet() {
		p.item(0, strong("Note: "), text("%s", r.Note.V))
	}
	p.heading(2, text("Its talk paths"))
	for _, c := range s.x.Channels {
		if c.Repeater == r {
			p.item(0, code(c.Path), text("  %s", c.Label))
		}
	}
	return true
}

// group explains a group and where it is heard.
func (s *shower) group(key string) bool {
	g, ok := s.x.Plan.Groups.Find(key)
	if !ok {
		return false
	}
	p := s.p
	p.heading(1, strong(g.Called()), text(": %s %s", callWords(g), g.ID.V), faint(" (%s)", s.d.place(g.Place())))
	p.paragraph(text("A talkgroup is an address: every radio that listens for it hears the call, whichever repeater carries it."))
	if g.Note.IsSet() {
		p.item(0, strong("Note: "), text("%s", g.Note.V))
	}
	p.heading(2, text("Where it is"))
	for _, c := range s.x.Channels {
		if c.GroupKey == key {
			p.item(0, code(c.Name), text("  calls it"))
		}
	}
	for _, l := range s.x.Plan.ReceiveLists.Sorted() {
		if slices.ContainsFunc(l.Groups, func(v plan.Value[string]) bool { return v.V == key }) {
			p.item(0, text("receive list "), code(l.Key.V))
		}
	}
	return true
}

// zone lists the channels of a zone in order.
func (s *shower) zone(key string) bool {
	i := slices.IndexFunc(s.x.Zones, func(z *plan.ZoneChannels) bool { return z.Zone.Key.V == key })
	if i < 0 {
		return false
	}
	z := s.x.Zones[i]
	p := s.p
	p.heading(1, strong(z.Zone.Called()), text(": a zone of %s", count(len(z.Members), "channel")), faint(" (%s)", s.d.place(z.Zone.Place())))
	t := table{head: []string{"", "label", "hears", "sends", "channel"}, numbers: []bool{true, false, true, true, false}}
	for i, m := range z.Members {
		sends := "-"
		if m.Channel.Transmit != 0 {
			sends = m.Channel.Transmit.String()
		}
		t.rows = append(t.rows, []Span{text("%d", i+1), text("%s", m.Channel.Label), text("%s", m.Channel.Receive), text("%s", sends), code(m.Channel.Name)})
	}
	p.table(t)
	return true
}

// operator explains a person by callsign or radio ID.
func (s *shower) operator(name string) bool {
	people := operatorsNamed(s.x, name)
	for _, o := range people {
		s.p.heading(1, strong(string(o.Callsign.V)), text(": radio ID %s", o.ID.V), faint(" (%s)", s.d.place(o.Place())))
		if o.Person.IsSet() {
			s.p.item(0, strong("Name: "), text("%s", o.Person.V))
		}
		if country, ok := o.Callsign.V.Country(); ok {
			s.p.item(0, strong("Callsign series: "), text("%s (ITU Radio Regulations, Appendix 42)", country))
		}
		s.p.item(0, text("A DMR radio sends this ID with every call; radios that know it show the callsign and name."))
	}
	return len(people) > 0
}

// operatorsNamed gives the rows with this callsign or radio ID.
func operatorsNamed(x *plan.Expansion, name string) []*plan.Operator {
	var people []*plan.Operator
	for _, o := range x.Plan.Operators.All() {
		if strings.EqualFold(string(o.Callsign.V), name) || o.ID.V.String() == name {
			people = append(people, o)
		}
	}
	return people
}
