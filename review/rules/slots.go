package rules

import (
	"fmt"
	"strings"
	"time"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rf"
)

// A slotLoad is what the groups of one time slot offer it in the busy hour.
type slotLoad struct {
	repeater *plan.Repeater
	slot     int
	erlangs  float64
	blocked  float64 // share of calls that find it busy
	groups   []plan.Value[string]
	counted  []*plan.Group // those with figures
	unsaid   int           // how many have none
}

// slotLoads gives the loads of those slots of which a club gives figures.
func slotLoads(p *plan.Plan) []slotLoad {
	var loads []slotLoad
	for _, r := range p.Repeaters.Sorted() {
		for i, groups := range r.DMR.Slots {
			if load := loadOf(p, groups); len(load.counted) > 0 {
				load.repeater, load.slot = r, i+1
				load.blocked, _ = rf.ErlangB(load.erlangs, 1) // one slot is one server, and figures of a plan are in range
				loads = append(loads, load)
			}
		}
	}
	return loads
}

func loadOf(p *plan.Plan, groups []plan.Value[string]) slotLoad {
	load := slotLoad{groups: groups}
	seen := make(map[string]bool)
	for _, key := range groups {
		g, ok := p.Groups.Find(key.V)
		if !ok || seen[key.V] {
			continue
		}
		seen[key.V] = true
		if !g.Busy.Calls.IsSet() || !g.Busy.Seconds.IsSet() {
			load.unsaid++
			continue
		}
		load.counted = append(load.counted, g)
		load.erlangs += rf.OfferedErlangs(float64(g.Busy.Calls.V), time.Duration(g.Busy.Seconds.V)*time.Second)
	}
	return load
}

// reportLoads reports the slots on which a share of calls from least, and less than most, is blocked.
func reportLoads(p *review.Pass, least, most float64) {
	loads := slotLoads(p.Plan)
	for _, load := range loads {
		if load.blocked <= least || load.blocked > most {
			continue
		}
		p.Report(load.finding(loads))
	}
}

func (load *slotLoad) finding(all []slotLoad) review.Finding {
	var names []string
	f := review.Finding{
		At: load.groups[0].At, About: []plan.Thing{load.repeater.Thing()},
		Values: []string{fmt.Sprintf("slot %d", load.slot), fmt.Sprintf("%.3f E", load.erlangs)},
		Why:    "it is a yardstick, not a forecast: it counts calls that come at random and give up when the slot is busy, and a net or an answer in a conversation is neither",
		Fix:    "move a group to the other slot or to a time of its own; the two slots are not a pool of two, since a group lives on one of them",
		Source: "Erlang B with one server (ITU Teletraffic Engineering handbook), and the figures of the plan",
	}
	for _, g := range load.counted {
		names = append(names, fmt.Sprintf("%s %d x %d s", g.Key.V, g.Busy.Calls.V, g.Busy.Seconds.V))
		f.Also = append(f.Also, review.Related{At: g.Place(), Text: g.Thing().String()})
	}
	f.What = fmt.Sprintf("in the busy hour slot %d of %s is offered %.2f erlang (%s), so that %.0f %% of calls find it busy", load.slot, load.repeater.Thing(), load.erlangs, strings.Join(names, ", "), 100*load.blocked)
	if load.unsaid > 0 {
		f.What += fmt.Sprintf("; %s on it without figures not counted", counted(load.unsaid, "group", "groups"))
	}
	for _, other := range all {
		if other.repeater == load.repeater && other.slot != load.slot {
			f.What += fmt.Sprintf("; slot %d has %.2f erlang", other.slot, other.erlangs)
		}
	}
	return f
}
