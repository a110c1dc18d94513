package rules

import (
	"passband.example/plandiff/plan"
)

// A part is a record whose label, or key where it has none, a channel shows.
type part struct {
	of    plan.Thing
	text  string
	at    plan.Place
	label bool // somebody wrote it; else it is the key
}

// partsOf gives what the label of a channel is made of: one that somebody wrote
// for it, or those of its repeater and its group. It gives nothing where one of
// them could not be read.
func partsOf(p *plan.Plan, c *plan.Channel) []part {
	if s := c.Spec; s != nil && s.Label.Written() {
		return readable(partOf(s, s.Label))
	}
	if r := c.Repeater; r != nil {
		parts := []part{partOf(r, r.Label)}
		if c.Group != nil {
			parts = append(parts, partOf(c.Group, c.Group.Label))
		}
		return readable(parts...)
	}
	if s, ok := p.Channels.Find(c.Path); ok {
		return readable(partOf(s, s.Label))
	}
	return nil
}

func partOf(r plan.Record, label plan.Value[string]) part {
	switch {
	case label.IsSet():
		return part{r.Thing(), label.V, label.At, true}
	case label.Written():
		return part{} // loading has told
	}
	return part{r.Thing(), r.Thing().Key, r.Place(), false}
}

func readable(parts ...part) []part {
	for _, p := range parts {
		if p.text == "" {
			return nil
		}
	}
	return parts
}

// labels gives the parts that somebody wrote, as the values of a finding: keys
// are none.
func labels(parts []part) []string {
	var texts []string
	for _, p := range parts {
		if p.label {
			texts = append(texts, p.text)
		}
	}
	return texts
}

// longest gives the part that there is most to take from; the first of two as long.
func longest(parts []part) part {
	most := parts[0]
	for _, p := range parts[1:] {
		if characters(p.text) > characters(most.text) {
			most = p
		}
	}
	return most
}
