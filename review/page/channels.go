package page

import (
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// channels is the table of all channels: the first of them as rows, and all of them as
// columns for the script.
type channels struct {
	Compared bool
	All      int
	Rows     []row
	More     int // rows that are left out of the table without a script
	Data     data
}

// A row is one channel as a person reads it.
type row struct {
	Name, Label  string
	Hears, Sends string
	Mode         string
	Access       string
	Zones        []string
	Radios       []string
	Change       string
}

func (s *sides) channels() *channels {
	in := s.membership()
	all := make([]row, 0, len(s.new.Channels))
	for _, c := range s.new.Channels {
		r := s.row(c)
		r.Zones, r.Radios, r.Change = in.zones[c.Name], in.radios[c.Name], s.changed[c.Name].words()
		all = append(all, r)
	}
	all = append(all, s.goneRows()...)
	t := &channels{Compared: s.compared(), All: len(all), Rows: all[:min(len(all), MostRows)], Data: columns(all, s.compared())}
	t.More = len(all) - len(t.Rows)
	return t
}

// goneRows gives the channels that the change takes away, in the order of the old plan.
func (s *sides) goneRows() (gone []row) {
	if !s.compared() {
		return nil
	}
	for _, c := range s.old.Channels {
		if f := s.changed[c.Name]; f != nil && f.Op == plandiff.Removed {
			r := s.row(c)
			r.Change = "gone"
			gone = append(gone, r)
		}
	}
	return gone
}

func (s *sides) row(c *plan.Channel) row {
	r := row{Name: c.Name, Label: c.Label, Sends: "never", Mode: strings.ToUpper(string(c.Mode)), Access: access(c)}
	if c.Receive != 0 {
		r.Hears = c.Receive.String()
	}
	if c.Transmit != 0 {
		r.Sends = c.Transmit.String()
	}
	return r
}

// access says what opens the channel: a tone, or a color code, a slot and a group.
func access(c *plan.Channel) string {
	var parts []string
	if c.Mode == plan.ModeDMR {
		if c.ColorCode.IsSet() {
			parts = append(parts, "CC "+c.ColorCode.V.String())
		}
		if c.Slot != 0 {
			parts = append(parts, "slot "+c.Slot.String())
		}
		if c.Group != nil {
			parts = append(parts, c.Group.Called())
		} else if c.GroupKey != "" {
			parts = append(parts, c.GroupKey)
		}
		return strings.Join(parts, " · ")
	}
	if !c.ToneSend.IsZero() && c.Transmit != 0 {
		parts = append(parts, "send "+c.ToneSend.String())
	}
	if !c.ToneReceive.IsZero() {
		parts = append(parts, "hear "+c.ToneReceive.String())
	}
	return strings.Join(parts, " · ")
}

// A membership tells which zones and classes of radio hold a channel, by their keys.
type membership struct{ zones, radios map[string][]string }

func (s *sides) membership() membership {
	in := membership{make(map[string][]string), make(map[string][]string)}
	for _, z := range s.new.Zones {
		for _, m := range z.Members {
			in.zones[m.Channel.Name] = append(in.zones[m.Channel.Name], z.Zone.Key.V)
		}
	}
	for _, f := range s.new.Fits {
		for _, c := range f.Channels {
			in.radios[c.Name] = append(in.radios[c.Name], f.Radio.Key.V)
		}
	}
	return in
}
