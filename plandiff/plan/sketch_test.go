package plan_test

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// sketch writes an expansion as text, with or without the places in files.
func sketch(x *plan.Expansion, places bool) string {
	s := &sketcher{places: places}
	for _, c := range x.Channels {
		s.channel(c)
	}
	for _, z := range x.Zones {
		s.line("zone", z.Zone.Key.V)
		s.members(z.Members)
		s.members(z.Twice)
	}
	for _, l := range x.ScanLists {
		s.line("scan list", l.List.Key.V, nameOf(l.Priority))
		s.members(l.Members)
		s.members(l.Twice)
	}
	for _, f := range x.Fits {
		s.fit(f)
	}
	for _, u := range x.Unresolved {
		s.line("unresolved", u.From, u.Kind, u.Text, u.Near, s.at(u.At))
	}
	for _, c := range x.Cycles {
		s.line("cycle", c.Through, s.at(c.At))
	}
	s.line("overflow", s.at(x.Overflow))
	return s.String()
}

// sorted puts the lines of a sketch into one order: what leads nowhere is told in
// the order of places, which differs from file to file.
func sorted(sketch string) string {
	lines := strings.Split(sketch, "\n")
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}

type sketcher struct {
	strings.Builder
	places bool
}

func (s *sketcher) line(parts ...any) { fmt.Fprintln(s, parts...) }

func (s *sketcher) at(p plan.Place) string {
	if !s.places {
		return ""
	}
	return p.String()
}

func nameOf(c *plan.Channel) string {
	if c == nil {
		return "-"
	}
	return c.Name
}

func (s *sketcher) channel(c *plan.Channel) {
	s.line(c.Name, c.Path, c.Label, c.Mode, c.Receive, c.Transmit, c.Wide, c.ToneSend, c.ToneReceive, c.ColorCode.V, c.Slot,
		c.GroupKey, c.ReceiveList, c.Listens, c.ScanList, c.Power, c.Timeout, c.Access, s.at(c.At))
	for _, b := range c.Because {
		s.line("  because", b.Thing, s.at(b.At))
	}
}

func (s *sketcher) members(members []plan.Member) {
	for _, m := range members {
		s.line("  ", m.Channel.Name, m.Entry, s.at(m.At))
	}
	s.line("  .")
}

func (s *sketcher) fit(f *plan.Fit) {
	s.line("radio", f.Radio.Key.V, f.Groups, f.Lists, f.LongList, nameOf(f.LongOf))
	for _, c := range f.Channels {
		s.line("  ", c.Name, f.Label(c))
	}
	for _, z := range f.Zones {
		s.line("  zone", z.Zone.Key.V, len(z.Channels))
	}
	for _, l := range f.ScanLists {
		s.line("  list", l.List.Key.V, len(l.Channels))
	}
	for _, l := range f.LeftOut {
		s.line("  left out", l.Channel.Name, l.Why)
	}
	for _, u := range f.Uses {
		s.line("  uses", u.Limit, u.Used, u.Most, u.Who, s.at(u.At))
	}
}
