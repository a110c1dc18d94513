package tables

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
)

// matchChannels finds the channel of the plan that each row is about: the one of its
// key; the one that is the same on the air; the one of its label, if only one has it.
// Each channel is taken once, and all rows look for a sure match before any settles for
// less.
func (b *builder) matchChannels(s *sheet, rows []*channelRow) {
	m := &channelMatcher{builder: b, taken: map[*plan.Channel]*channelRow{}}
	for _, r := range rows {
		m.byKey(r)
	}
	for _, by := range []struct {
		row     func(*channelRow) string
		channel func(*plan.Channel) string
	}{
		{rowAir(s, true), channelAir(s, b.old, true)},
		{rowAir(s, false), channelAir(s, b.old, false)},
		{rowLabel, func(c *plan.Channel) string { return string(c.Mode) + "/" + b.old.cut(c.Label) }},
	} {
		m.by(rows, by.row, by.channel)
	}
}

type channelMatcher struct {
	*builder
	taken map[*plan.Channel]*channelRow
}

// byKey takes the channel that a row names. A key that the plan does not have is one
// that the row brings.
func (m *channelMatcher) byKey(r *channelRow) {
	for _, value := range []string{"key", "path"} {
		name := r.says(value)
		if name == "" || r.old != nil {
			continue
		}
		c, ok := m.old.x.Find(name)
		if on := m.old.x.OnPath(name); !ok && len(on) == 1 {
			c, ok = on[0], true
		}
		if !ok || value == "path" && (r.says("key") != "" || len(m.old.x.OnPath(name)) != 1) {
			continue
		}
		i := r.column(value)
		switch first := m.taken[c]; {
		case first != nil:
			m.problem(r.row, i, fmt.Sprintf("row %d is about the channel %s too", first.n, name), "take one of them out, or give it another key")
		case string(c.Mode) != r.mode:
			m.problem(r.row, i, fmt.Sprintf("the channel %s is %s in the plan, and a row cannot make it %s", name, strings.ToUpper(string(c.Mode)), strings.ToUpper(r.mode)), "give the row another key, or empty it")
		default:
			r.old, m.taken[c] = c, r
		}
	}
}

// by matches what is left by a text that both sides have, where it is not empty. Of
// several, the first that is free is taken.
func (m *channelMatcher) by(rows []*channelRow, ofRow func(*channelRow) string, of func(*plan.Channel) string) {
	free := make(map[string][]*plan.Channel)
	for _, c := range m.old.x.Channels {
		if m.taken[c] == nil {
			free[of(c)] = append(free[of(c)], c)
		}
	}
	for _, r := range rows {
		text := ofRow(r)
		if r.bad || r.old != nil || text == "" || r.says("key") != "" || len(free[text]) == 0 {
			continue
		}
		r.old = free[text][0]
		free[text] = free[text][1:]
		m.taken[r.old] = r
	}
}

func rowLabel(r *channelRow) string {
	if label := r.says("label"); label != "" {
		return r.mode + "/" + label
	}
	return ""
}

// The values that make a channel what it is on the air; those count that the table has.
var airValues = []string{"color_code", "slot", "group.id", "group", "group.label", "repeater", "callsign"}

// rowAir gives what a row is on the air, with its label or without.
func rowAir(s *sheet, label bool) func(*channelRow) string {
	return func(r *channelRow) string {
		if r.output == "" {
			return ""
		}
		parts := []string{r.mode, r.output}
		if r.sends {
			parts = append(parts, r.input)
		}
		for _, name := range []string{"tone.send", "tone.receive"} {
			if r.tells(name) {
				parts = append(parts, map[string]string{"tone.send": r.toneSend, "tone.receive": r.toneRecv}[name])
			}
		}
		for _, value := range airOf(s) {
			parts = append(parts, r.says(value))
		}
		if label {
			parts = append(parts, r.says("label"))
		}
		return strings.Join(parts, "\x00")
	}
}

// channelAir gives the same of a channel of the plan.
func channelAir(s *sheet, v *view, label bool) func(*plan.Channel) string {
	sends := s.has(s.table.find("input")) || s.has(s.table.find("split")) || s.has(s.table.find("split.direction"))
	probe := &row{sheet: s}
	tones := map[string]bool{}
	for _, name := range []string{"tone.send", "tone.receive"} {
		tones[name] = (&channelRow{row: probe}).tells(name)
	}
	show := func(c *plan.Channel, value string) string {
		return first(s.table.source.find(value).get(v, item{channel: c}))
	}
	return func(c *plan.Channel) string {
		parts := []string{string(c.Mode), show(c, "output")}
		if sends {
			parts = append(parts, show(c, "input"))
		}
		for _, name := range []string{"tone.send", "tone.receive"} {
			if tones[name] {
				parts = append(parts, show(c, name))
			}
		}
		for _, value := range airOf(s) {
			parts = append(parts, show(c, value))
		}
		if label {
			parts = append(parts, v.cut(c.Label))
		}
		return strings.Join(parts, "\x00")
	}
}

// airOf gives the values on the air that a sheet has; of those that tell the group, one.
func airOf(s *sheet) []string {
	var values []string
	group := false
	for _, value := range airValues {
		if !s.has(s.table.find(value)) || listOf(value) == "group" && group {
			continue
		}
		group = group || listOf(value) == "group"
		values = append(values, value)
	}
	return values
}
