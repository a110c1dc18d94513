package tables

import (
	"cmp"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// Missing is a field that the plan has and the tables do not show.
type Missing struct {
	Kind  plan.Kind `json:"kind"`
	Field string    `json:"field"`
	Count int       `json:"count"` // of the records that have it
}

// String gives "the note of 3 repeaters".
func (m Missing) String() string {
	if m.Count == 1 {
		return fmt.Sprintf("%s of 1 %s", m.Field, m.Kind)
	}
	return fmt.Sprintf("%s of %d %ss", m.Field, m.Count, m.Kind)
}

// missing tells which fields of a plan no table of the layout carries. What makes up
// channels is carried by a table of channels, whoever wrote it.
func missing(p *plan.Plan, l *Layout) []Missing {
	carried := carriedBy(l)
	var lacks []Missing
	for _, s := range plan.Sections() {
		count := make(map[string]int)
		for _, r := range s.All(p) {
			for i := range s.Fields {
				if f := &s.Fields[i]; !carried[s.Kind][f.Name] && len(f.Items(r)) > 0 {
					count[f.Name]++
				}
			}
		}
		for i := range s.Fields {
			if n := count[s.Fields[i].Name]; n > 0 {
				lacks = append(lacks, Missing{s.Kind, s.Fields[i].Name, n})
			}
		}
	}
	slices.SortStableFunc(lacks, func(a, b Missing) int { return cmp.Compare(a.Kind, b.Kind) })
	return lacks
}

// carriedBy tells which fields of which kinds the tables of a layout carry.
func carriedBy(l *Layout) map[plan.Kind]map[string]bool {
	carried := make(map[plan.Kind]map[string]bool)
	carry := func(k plan.Kind, fields ...string) {
		if carried[k] == nil {
			carried[k] = make(map[string]bool)
		}
		for _, f := range fields {
			carried[k][f] = true
		}
	}
	for _, t := range l.Tables {
		for _, c := range t.Columns {
			switch {
			case c.value == nil || c.value.field == "":
			case t.source.name == "channels":
				for _, f := range madeOf(c.value.name) {
					carry(f.kind, f.fields...)
				}
			default:
				carry(t.source.kind, c.value.field)
			}
		}
	}
	return carried
}

// A part is fields of records that the channels of a radio are made of.
type part struct {
	kind   plan.Kind
	fields []string
}

// madeOf gives the part of a plan that each value of a channel is made of.
func madeOf(value string) []part {
	const rep, own = plan.KindRepeater, plan.KindChannel
	both := func(fields ...string) []part { return []part{{rep, fields}, {own, fields}} }
	switch value {
	case "label":
		return []part{{own, []string{"label"}}}
	case "repeater.label":
		return []part{{rep, []string{"label"}}}
	case "callsign":
		return []part{{rep, []string{"callsign"}}}
	case "mode":
		return both("fm", "dmr")
	case "output":
		return []part{{rep, []string{"output"}}, {own, []string{"receive", "simplex"}}}
	case "input", "split", "split.size":
		return []part{{rep, []string{"input", "split"}}, {own, []string{"simplex", "transmit"}}}
	case "path":
		return []part{{own, []string{"path"}}}
	case "transmit":
		return []part{{own, []string{"transmit"}}}
	case "width":
		return both("fm.width")
	case "tone.send", "tone.send.ctcss", "tone.send.dcs":
		return both("fm.tone.send")
	case "tone.receive", "tone.receive.ctcss", "tone.receive.dcs":
		return both("fm.tone.receive")
	case "color_code":
		return both("dmr.color_code")
	case "slot":
		return []part{{own, []string{"dmr.slot"}}}
	case "group":
		return []part{{rep, []string{"dmr.slot1", "dmr.slot2"}}, {own, []string{"dmr.group"}}}
	case "group.id":
		return []part{{rep, []string{"dmr.slot1", "dmr.slot2"}}, {own, []string{"dmr.group"}}, {plan.KindGroup, []string{"id"}}}
	case "group.label":
		return []part{{rep, []string{"dmr.slot1", "dmr.slot2"}}, {own, []string{"dmr.group"}}, {plan.KindGroup, []string{"label"}}}
	case "group.call":
		return []part{{plan.KindGroup, []string{"call"}}}
	case "receive_list":
		return both("dmr.receive_list")
	case "scan_list", "scan_list.label":
		return both("scan_list")
	case "power", "timeout_s":
		return both(value)
	case "access":
		return both("fm.access", "dmr.access")
	case "privacy":
		return both("dmr.privacy")
	case "zones", "zones.label":
		return []part{{plan.KindZone, []string{"channels"}}}
	}
	return nil
}
