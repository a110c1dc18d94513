package report

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// headed begins what there is to say of a record: what members call it, what it
// is, and where it stands.
func (s *shower) headed(called, what string, r plan.Record) {
	s.p.heading(1, Line{strong(called), text(": %s", what)}.and(at(s.d.place(r.Place()))...)...)
}

// repeater explains a repeater and lists its talk paths.
func (s *shower) repeater(r *plan.Repeater) {
	s.headed(r.Called(), "a repeater", r)
	if r.Callsign.IsSet() {
		s.point("Callsign", text("%s", r.Callsign.V))
	}
	if r.Output.IsSet() {
		s.point("Output", text("%s. Members hear it here.", megahertz(r.Output.V)))
	}
	if in := r.TransmitOn(); in != 0 && r.Output.IsSet() {
		s.point("Input", text("%s, %s MHz from the output. Members send here.", megahertz(in), signal.Split(in-r.Output.V)))
	}
	s.repeaterSides(r)
	s.site(r)
	if r.Note.IsSet() {
		s.point("Note", text("%s", r.Note.V))
	}
	s.remarks(r)
	s.channels("Its talk paths", "No channel of the plan uses it.", func(c *plan.Channel) bool { return c.Repeater == r })
}

// repeaterSides says what a member needs to be heard, in FM and in DMR.
func (s *shower) repeaterSides(r *plan.Repeater) {
	if r.FM.Present.IsSet() {
		tone := "no tone is needed to open it."
		if r.FM.ToneSend.IsSet() {
			tone = fmt.Sprintf("send %s to open it.", toneName(r.FM.ToneSend.V))
		}
		s.point("FM", text("%s", tone))
	}
	if r.DMR.ColorCode.IsSet() {
		s.point("DMR", text("color code %s.", r.DMR.ColorCode.V))
	}
	for i := range r.DMR.Slots {
		var carried []string
		for _, g := range r.DMR.Slots[i] {
			carried = append(carried, g.V)
		}
		if len(carried) > 0 {
			s.point(fmt.Sprintf("Slot %d", i+1), s.groupNames(carried)...)
		}
	}
}

// channels lists the channels that are meant, or says that there are none.
func (s *shower) channels(title, none string, meant func(*plan.Channel) bool) {
	s.p.heading(2, text("%s", title))
	t := table{head: []string{"channel", "label"}, numbers: []bool{false, false}}
	for _, c := range s.x.Channels {
		if meant(c) {
			t.rows = append(t.rows, []Span{code(c.Name), text("%s", c.Label)})
		}
	}
	if len(t.rows) == 0 {
		s.p.paragraph(text("%s", none))
		return
	}
	s.p.table(t)
}

// group explains a group and where it is heard.
func (s *shower) group(g *plan.Group) {
	s.headed(g.Called(), callWords(g), g)
	switch g.Call.Or("group") {
	case "private":
		s.p.paragraph(text("A private call reaches the one station with this number, and no other radio opens for it."))
	case "all":
		s.p.paragraph(text("A call to everybody opens every radio on the slot, whatever it listens for. Keep it for emergencies."))
	default:
		s.p.paragraph(text("A talkgroup is an address: every radio that listens for it hears the call, whichever repeater carries it."))
	}
	if g.Note.IsSet() {
		s.point("Note", text("%s", g.Note.V))
	}
	var lists []string
	for _, l := range s.x.Plan.ReceiveLists.Sorted() {
		if slices.ContainsFunc(l.Groups, func(v plan.Value[string]) bool { return v.V == g.Key.V }) {
			lists = append(lists, l.Key.V)
		}
	}
	if len(lists) > 0 {
		s.point("In receive lists", keys(lists)...)
	}
	s.channels("Channels that call it", "No channel calls it.", func(c *plan.Channel) bool { return c.GroupKey == g.Key.V })
}

// zone lists the channels of a zone in order.
func (s *shower) zone(z *plan.ZoneChannels) {
	s.headed(z.Zone.Called(), "a zone of "+count(len(z.Members), "channel"), z.Zone)
	t := table{head: []string{"", "label", "hears", "sends", "channel"}, numbers: []bool{true, false, true, true, false}}
	for i, m := range z.Members {
		t.rows = append(t.rows, []Span{
			text("%d", i+1), text("%s", m.Channel.Label), frequency(m.Channel.Receive), frequency(m.Channel.Transmit), code(m.Channel.Name),
		})
	}
	if len(t.rows) == 0 {
		s.p.paragraph(text("It has no channels."))
		return
	}
	s.p.table(t)
}

// frequency fills a cell.
func frequency(f signal.Hertz) Span {
	if f == 0 {
		return text("-")
	}
	return text("%s", f)
}

// operator explains a person.
func (s *shower) operator(o *plan.Operator) {
	called := string(o.Callsign.Or(""))
	if called == "" {
		called = "an operator without a callsign"
	}
	s.headed(called, "radio ID "+o.ID.V.String(), o)
	if o.Person.IsSet() {
		s.point("Name", text("%s", o.Person.V))
	}
	if country, ok := o.Callsign.V.Country(); ok {
		s.point("Callsign series", text("%s (ITU Radio Regulations, Appendix 42)", country))
	}
	s.p.item(0, text("A DMR radio sends this ID with every call; radios that know it show the callsign and name."))
}
