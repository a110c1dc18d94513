package report

import (
	"errors"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// ErrNothing says that a plan has nothing by the name that was asked for.
var ErrNothing = errors.New("the plan has nothing by that name")

// Show explains one thing of a plan in plain words: a channel, a talk path, a
// repeater, a group, a zone, an operator or a neighbor. A name that several things have
// explains each; "group local" asks for one of them. The error is ErrNothing, with
// the nearest name.
func Show(d *Document, name string) (*Page, error) {
	found, err := find(d.Expansion, name)
	if err != nil {
		return nil, err
	}
	s := shower{d: d, x: d.Expansion, p: new(Page)}
	for _, r := range found.repeaters {
		s.repeater(r)
	}
	for _, c := range found.channels {
		s.channel(c)
	}
	for _, g := range found.groups {
		s.group(g)
	}
	for _, z := range found.zones {
		s.zone(z)
	}
	for _, o := range found.operators {
		s.operator(o)
	}
	for _, n := range found.neighbors {
		s.neighbor(n)
	}
	s.p.paragraph(faint("%s", caution))
	return s.p, nil
}

type shower struct {
	d *Document
	x *plan.Expansion
	p *Page
}

// point adds a line to a list: a word in bold, and what there is to say of it.
func (s *shower) point(name string, spans ...Span) {
	s.p.item(0, append(Line{strong(name + ": ")}, spans...)...)
}

// where says which zones a channel is in and what radios make of it.
func (s *shower) where(c *plan.Channel) {
	s.p.heading(2, text("Where it is"))
	before := len(s.p.blocks)
	for _, z := range s.x.Zones {
		for i, m := range z.Members {
			if m.Channel == c {
				s.p.item(0, text("%s, channel %d", calledAs(z.Zone.Thing(), z.Zone.Called()), i+1))
			}
		}
	}
	for _, f := range s.x.Fits {
		radio := calledAs(f.Radio.Thing(), f.Radio.Called())
		if slices.Contains(f.Channels, c) {
			s.p.item(0, text("%s shows it as ", radio), code(f.Label(c)))
		}
		for _, l := range f.LeftOut {
			if l.Channel == c {
				s.p.item(0, text("%s leaves it out: %s", radio, l.Why))
			}
		}
	}
	if len(s.p.blocks) == before {
		s.p.paragraph(text("In no zone, so no radio shows it."))
	}
}

// groupNames lists groups as members know them, with their numbers.
func (s *shower) groupNames(keys []string) Line {
	parts := make([]Line, len(keys))
	for i, key := range keys {
		g, ok := s.x.Plan.Groups.Find(key)
		switch {
		case ok && g.ID.IsSet():
			parts[i] = Line{text("%s (%s)", g.Called(), g.ID.V)}
		case ok:
			parts[i] = Line{text("%s", g.Called())}
		default:
			parts[i] = Line{code(key), text(", which the plan does not have")}
		}
	}
	return listed(parts)
}

// nothing says that there is no such thing, and what may have been meant.
func nothing(x *plan.Expansion, name, key string) error {
	if near := plan.Nearest(key, Names(x)); near != "" {
		return fmt.Errorf("%w: %q; did you mean %s?", ErrNothing, name, near)
	}
	return fmt.Errorf("%w: %q; write the key of a channel, repeater, group or zone, a talk path such as ridge/1/statewide, a label, a callsign or a number", ErrNothing, name)
}
