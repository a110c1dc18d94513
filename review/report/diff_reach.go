package report

import (
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// foldedEffects is how many channels of a cause are named before the rest is
// only counted.
const foldedEffects = 4

// reach says what a cause does to members, folded unless asked to unfold.
func (d *Document) reach(p *Page, cause *plandiff.Cause) {
	r := cause.Reach
	if d.Unfold {
		unfolded(p, r.Channels)
	} else {
		folded(p, r.Channels)
	}
	if line := lists(r); len(line) > 0 {
		p.detail(1, "in", line...)
	}
	if len(r.Radios) > 0 && cause.Weight != plan.Policy {
		p.detail(1, "load again", keys(r.Radios)...)
	}
}

// folded names the first channels, and says of each what differs.
func folded(p *Page, effects []plandiff.Effect) {
	n := len(effects)
	if n == 0 {
		return
	}
	shown := min(n, foldedEffects)
	var parts []Line
	for _, e := range effects[:shown] {
		parts = append(parts, effect(e))
	}
	line := append(Line{text("%s: ", count(n, "channel"))}, listed(parts)...)
	if n > shown {
		line = append(line, text(" and %d more", n-shown))
	}
	p.detail(1, "reaches", line...)
}

// unfolded gives every channel a line, with what was and what is.
func unfolded(p *Page, effects []plandiff.Effect) {
	if len(effects) == 0 {
		return
	}
	p.detail(1, "reaches", text("%s", count(len(effects), "channel")))
	for _, e := range effects {
		line := effectName(e)
		for i, a := range e.Aspects {
			lead := ", "
			if i == 0 {
				lead = ": "
			}
			line = append(line, text("%s%s ", lead, a.Name), Span{orNone(a.Old), Old}, text(" -> "), Span{orNone(a.New), New})
		}
		p.detail(2, "", line...)
	}
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// effect says what happens to one channel, and in which respects.
func effect(e plandiff.Effect) Line {
	line := effectName(e)
	var aspects []string
	for _, a := range e.Aspects {
		aspects = append(aspects, a.Name)
	}
	if len(aspects) > 0 {
		line = append(line, text(" (%s)", strings.Join(aspects, ", ")))
	}
	return line
}

func effectName(e plandiff.Effect) Line {
	switch {
	case e.Op == plandiff.Added:
		return Line{Span{e.Channel, New}, text(" comes")}
	case e.Op == plandiff.Removed:
		return Line{Span{e.Channel, Old}, text(" goes")}
	case e.Was != "" && e.Was != e.Channel:
		return Line{Span{e.Channel, New}, text(", which was "), Span{e.Was, Old}}
	}
	return Line{code(e.Channel)}
}

// lists names the zones and scan lists that a cause reaches.
func lists(r plandiff.Reach) Line {
	var parts []Line
	for _, l := range []struct {
		thing string
		keys  []string
	}{{"zone", r.Zones}, {"scan list", r.ScanLists}} {
		if len(l.keys) > 0 {
			parts = append(parts, append(Line{text("%s ", plural(len(l.keys), l.thing))}, keys(l.keys)...))
		}
	}
	if len(parts) == 2 {
		return append(append(parts[0], text("; ")), parts[1]...)
	}
	return listed(parts)
}
