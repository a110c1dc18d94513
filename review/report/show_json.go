package report

import (
	"io"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// ShowForm is the JSON form of Show.
type ShowForm struct {
	Passband string        `json:"passband"`
	Version  int           `json:"version"`
	Plan     string        `json:"plan"`
	At       *Origin       `json:"at"`
	Channels []ChannelForm `json:"channels"`
	Records  []RecordForm  `json:"records"`
}

// ChannelForm is a channel worked out. What the plan does not say is left out;
// a transmit frequency that is left out means that the channel never transmits.
type ChannelForm struct {
	Name        string       `json:"name"`
	Path        string       `json:"path"`
	Label       string       `json:"label"`
	Mode        plan.Mode    `json:"mode"`
	Receive     signal.Hertz `json:"receive,omitempty"`
	Transmit    signal.Hertz `json:"transmit,omitempty"`
	Wide        bool         `json:"wide,omitempty"`
	ToneSend    string       `json:"tone_sent,omitempty"`
	ToneReceive string       `json:"tone_received,omitempty"`
	ColorCode   *int         `json:"color_code,omitempty"`
	Slot        int          `json:"slot,omitempty"`
	Group       string       `json:"group,omitempty"`
	Listens     []string     `json:"listens_for,omitempty"`
	ScanList    string       `json:"scan_list,omitempty"`
	Power       string       `json:"power,omitempty"`
	Timeout     int          `json:"timeout_s,omitempty"`
	Access      string       `json:"access,omitempty"`
	When        string       `json:"when,omitempty"`
	Privacy     bool         `json:"privacy,omitempty"`
	Zones       []string     `json:"zones"`
	Because     []CauseAt    `json:"because"`
}

// CauseAt is a record that makes a channel what it is, and its line.
type CauseAt struct {
	Thing plan.Thing `json:"thing"`
	At    plan.Place `json:"at"`
}

// RecordForm is a record as it is written, by the path of its keys.
type RecordForm struct {
	Thing  plan.Thing          `json:"thing"`
	At     plan.Place          `json:"at"`
	Fields map[string][]string `json:"fields"`
}

// ShowJSON writes Show for programs. The error is that of Show.
func ShowJSON(w io.Writer, d *Document, name string) error {
	f, err := find(d.Expansion, name)
	if err != nil {
		return err
	}
	out := ShowForm{
		Passband: "show", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New,
		Channels: []ChannelForm{}, Records: []RecordForm{},
	}
	for _, c := range f.channels {
		out.Channels = append(out.Channels, channelForm(d.Expansion, c))
	}
	for _, r := range f.repeaters {
		out.Records = append(out.Records, recordForm(r))
	}
	for _, g := range f.groups {
		out.Records = append(out.Records, recordForm(g))
	}
	for _, z := range f.zones {
		out.Records = append(out.Records, recordForm(z.Zone))
	}
	for _, o := range f.operators {
		out.Records = append(out.Records, recordForm(o))
	}
	for _, n := range f.neighbors {
		out.Records = append(out.Records, recordForm(n))
	}
	return WriteJSON(w, out)
}

func channelForm(x *plan.Expansion, c *plan.Channel) ChannelForm {
	f := ChannelForm{
		Name: c.Name, Path: c.Path, Label: c.Label, Mode: c.Mode, Receive: c.Receive, Transmit: c.Transmit, Wide: c.Wide,
		Slot: int(c.Slot), Group: c.GroupKey, Listens: c.Listens, ScanList: c.ScanList, Power: c.Power, Timeout: c.Timeout,
		Access: c.Access, When: c.When, Privacy: c.Privacy, Zones: []string{}, Because: []CauseAt{},
	}
	if !c.ToneSend.IsZero() {
		f.ToneSend = c.ToneSend.String()
	}
	if !c.ToneReceive.IsZero() {
		f.ToneReceive = c.ToneReceive.String()
	}
	if c.ColorCode.IsSet() {
		n := int(c.ColorCode.V)
		f.ColorCode = &n
	}
	for _, z := range x.Zones {
		for _, m := range z.Members {
			if m.Channel == c {
				f.Zones = append(f.Zones, z.Zone.Key.V)
			}
		}
	}
	for _, b := range c.Because {
		f.Because = append(f.Because, CauseAt(b))
	}
	return f
}

func recordForm(r plan.Record) RecordForm {
	f := RecordForm{Thing: r.Thing(), At: r.Place(), Fields: map[string][]string{}}
	s := plan.SectionOf(r.Thing().Kind)
	for i := range s.Fields {
		for _, item := range s.Fields[i].Items(r) {
			f.Fields[s.Fields[i].Name] = append(f.Fields[s.Fields[i].Name], item.Text)
		}
	}
	return f
}
