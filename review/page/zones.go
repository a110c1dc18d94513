package page

import (
	"slices"

	"passband.example/plandiff/plan"
)

// zones are the zones of both plans, those that differ first.
type zones struct {
	Compared  bool
	Differing []zone
	Same      []zone
	More      int // zones that are left out
	MoreKeys  []string
}

// A zone is drawn as a grid of what the steps of the knob give, before and after.
type zone struct {
	Key, Label string
	Status     string // new, gone, changed, or "" where it is the same
	Relabelled string // its label before, where that was another
	Before     []cell
	After      []cell
}

// A cell is one step of the knob.
type cell struct {
	Step  int
	Label string
	Name  string
	Hears string // MHz
	Mode  string
	State string // came, went, moved, changed, or "" for what is as it was
	Why   string // what differs, or from where it moved
}

func (s *sides) zones() *zones {
	z := &zones{Compared: s.compared()}
	was := s.zonesBefore()
	left := MostMembers
	for _, pass := range []bool{true, false} { // those that differ get their room first
		for _, now := range s.new.Zones {
			one := s.zone(now, was[now.Zone.Key.V])
			if (one.Status != "") != pass {
				continue
			}
			z.take(one, &left)
		}
		for _, old := range s.zonesGone() {
			if pass {
				z.take(s.goneZone(old), &left)
			}
		}
	}
	return z
}

// namedZones is how many of the zones that are left out are named.
const namedZones = 12

// take draws a zone while there is room.
func (z *zones) take(one zone, left *int) {
	size := len(one.Before) + len(one.After)
	if size > *left {
		z.More++
		if len(z.MoreKeys) < namedZones {
			z.MoreKeys = append(z.MoreKeys, one.Key)
		}
		return
	}
	*left -= size
	if one.Status != "" {
		z.Differing = append(z.Differing, one)
	} else {
		z.Same = append(z.Same, one)
	}
}

// zonesBefore gives the zones of the old plan by the keys that they have now.
func (s *sides) zonesBefore() map[string]*plan.ZoneChannels {
	was := make(map[string]*plan.ZoneChannels)
	if s.compared() {
		for _, z := range s.old.Zones {
			was[s.Comparison.Renames.Key(plan.KindZone, z.Zone.Key.V)] = z
		}
	}
	return was
}

// zonesGone gives the zones of the old plan that the new one does not have.
func (s *sides) zonesGone() (gone []*plan.ZoneChannels) {
	if !s.compared() {
		return nil
	}
	for _, z := range s.old.Zones {
		if _, ok := s.new.Plan.Zones.Find(s.Comparison.Renames.Key(plan.KindZone, z.Zone.Key.V)); !ok {
			gone = append(gone, z)
		}
	}
	return gone
}

func (s *sides) goneZone(z *plan.ZoneChannels) zone {
	one := zone{Key: z.Zone.Key.V, Label: z.Zone.Called(), Status: "gone", Before: cells(z)}
	for i := range one.Before {
		one.Before[i].State = "went"
	}
	return one
}

// zone lays a zone beside what it was; was is nil for a new one, and where nothing is compared.
func (s *sides) zone(now, was *plan.ZoneChannels) zone {
	one := zone{Key: now.Zone.Key.V, Label: now.Zone.Called(), After: cells(now)}
	if !s.compared() {
		return one
	}
	if was == nil {
		one.Status = "new"
		for i := range one.After {
			one.After[i].State = "came"
		}
		return one
	}
	before := cells(was)
	if s.mark(before, one.After) {
		one.Status, one.Before = "changed", before
	}
	if was.Zone.Called() != one.Label {
		one.Status, one.Before, one.Relabelled = "changed", before, was.Zone.Called()
	}
	return one
}

func cells(z *plan.ZoneChannels) []cell {
	all := make([]cell, len(z.Members))
	for i, m := range z.Members {
		c := m.Channel
		all[i] = cell{Step: i + 1, Label: c.Label, Name: c.Name, Mode: string(c.Mode)}
		if c.Receive != 0 {
			all[i].Hears = c.Receive.String()
		}
	}
	return slices.Clip(all)
}
