package plan

import (
	"slices"
	"strings"
)

// zones puts the channels into the zones, those of other zones included.
func (e *expander) zones() {
	for _, z := range e.plan().Zones.Sorted() {
		e.x.Zones = append(e.x.Zones, e.zone(z))
	}
}

func (e *expander) zone(z *Zone) *ZoneChannels {
	zc := &ZoneChannels{Zone: z}
	zc.Members, zc.Twice = e.collect(z.Thing(), z.Channels, []*Zone{z})
	return zc
}

func (e *expander) scanLists() {
	for _, s := range e.plan().ScanLists.Sorted() {
		sc := &ScanChannels{List: s}
		sc.Members, sc.Twice = e.collect(s.Thing(), s.Channels, nil)
		if s.Priority.IsSet() {
			if found := e.entry(s.Thing(), s.Priority); len(found) > 0 {
				sc.Priority = found[0]
			}
		}
		e.x.ScanLists = append(e.x.ScanLists, sc)
	}
}

// collect gives the channels that entries name, each once and at its first
// place, and those that an entry without * names again.
func (e *expander) collect(from Thing, entries []Value[string], inside []*Zone) (members, twice []Member) {
	seen := make(map[*Channel]bool)
	asked := make(map[string]bool)
	var walk func(entries []Value[string], inside []*Zone, at Place)
	walk = func(entries []Value[string], inside []*Zone, at Place) {
		for _, entry := range entries {
			place := at
			if place.IsZero() {
				place = entry.At
			}
			if !entry.IsSet() || !e.room(place) {
				continue
			}
			if key, ok := strings.CutPrefix(entry.V, zonePrefix); ok {
				if z := e.inner(from, key, entry.At, inside, asked); z != nil {
					walk(z.Channels, append(slices.Clip(inside), z), place)
				}
				continue
			}
			again := asked[entry.V]
			asked[entry.V] = true
			if again && isPattern(entry.V) {
				continue
			}
			for _, c := range e.found(from, entry, at.IsZero()) {
				m := Member{c, entry.V, place}
				switch {
				case !seen[c]:
					seen[c] = true
					members = append(members, m)
					e.members++
				case again && at.IsZero():
					twice = append(twice, m)
				}
			}
		}
	}
	walk(entries, inside, Place{})
	return members, twice
}

// room reports whether zones and lists may grow further, and notes where they may not.
func (e *expander) room(at Place) bool {
	if e.members < MaxMembers {
		return true
	}
	if e.x.Overflow.IsZero() {
		e.x.Overflow = at
	}
	return false
}

// inner gives the zone that an entry stands for, unless it is unknown, was
// named before, or leads back to a zone that it stands in.
func (e *expander) inner(from Thing, key string, at Place, inside []*Zone, asked map[string]bool) *Zone {
	z, ok := e.plan().Zones.Find(key)
	if !ok {
		if len(inside) <= 1 {
			e.unresolved(from, "zone", key, at, keysOf(e.plan().Zones.All()))
		}
		return nil
	}
	if i := slices.Index(inside, z); i >= 0 {
		if i == 0 {
			var through []Thing
			for _, zone := range append(slices.Clip(inside), z) {
				through = append(through, zone.Thing())
			}
			e.x.Cycles = append(e.x.Cycles, Cycle{Through: through, At: at})
		}
		return nil
	}
	if asked[zonePrefix+key] {
		return nil
	}
	asked[zonePrefix+key] = true
	return z
}

// found gives the channels of an entry; complain says whether to note that it has none.
func (e *expander) found(from Thing, entry Value[string], complain bool) []*Channel {
	if complain {
		return e.entry(from, entry)
	}
	found, _ := e.lookUp(entry.V)
	return found
}

// entry gives the channels that an entry names, and notes one that names none.
func (e *expander) entry(from Thing, entry Value[string]) []*Channel {
	found, kind := e.lookUp(entry.V)
	if len(found) == 0 {
		e.unresolved(from, kind, entry.V, entry.At, e.likely(entry.V))
	}
	return found
}

// lookUp gives the channels that an entry names, and the word for what it names.
func (e *expander) lookUp(text string) ([]*Channel, string) {
	switch {
	case isPattern(text):
		return e.match(text), "talk path"
	case strings.Contains(text, "/"):
		return e.x.byPath[text], "talk path"
	}
	if c, ok := e.x.byName[text]; ok {
		return []*Channel{c}, "channel"
	}
	return nil, "channel"
}

// likely gives the names that an entry may have meant.
func (e *expander) likely(text string) []string {
	if isPattern(text) {
		return nil
	}
	if strings.Contains(text, "/") {
		return e.knownPaths(text)
	}
	return keysOf(e.plan().Channels.All())
}

// match gives the channels of the talk paths that a pattern stands for.
func (e *expander) match(pattern string) []*Channel {
	if found, ok := e.patterns[pattern]; ok {
		return found
	}
	want := strings.Split(pattern, "/")
	candidates := e.repeaters
	if want[0] != "*" {
		candidates = nil
		if r, ok := e.plan().Repeaters.Find(want[0]); ok {
			candidates = []*Repeater{r}
		}
	}
	var found []*Channel
	for _, r := range candidates {
		for _, path := range pathNames(r) {
			if matches(strings.Split(path, "/"), want) {
				found = append(found, e.x.byPath[path]...)
			}
		}
	}
	e.patterns[pattern] = found
	return found
}

// pathNames gives the talk paths of a repeater in order.
func pathNames(r *Repeater) []string {
	var names []string
	if r.FM.Present.IsSet() {
		names = append(names, r.Key.V+"/"+string(ModeFM))
	}
	for i, groups := range r.DMR.Slots {
		for _, g := range groups {
			if g.IsSet() {
				names = append(names, r.Key.V+"/"+slotNames[i]+"/"+g.V)
			}
		}
	}
	return names
}

// matches compares the parts of a talk path with those of a pattern. ridge/*
// stands for all of ridge; ridge/*/statewide for a group on either slot.
func matches(path, want []string) bool {
	if len(want) == 2 && want[1] == "*" {
		want = append(slices.Clip(want), "*")[:len(path)]
	}
	if len(path) != len(want) {
		return false
	}
	for i := range path {
		if want[i] != "*" && want[i] != path[i] {
			return false
		}
	}
	return true
}
