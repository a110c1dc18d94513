package plan

import (
	"slices"
	"strings"
)

// zones puts the channels into the zones, those of other zones included.
func (e *expander) zones() {
	for _, z := range e.plan().Zones.Sorted() {
		c := e.collector(z.Thing(), len(z.Channels))
		c.walk(z.Channels, []*Zone{z}, Place{})
		e.x.Zones = append(e.x.Zones, &ZoneChannels{Zone: z, Members: c.members, Twice: c.twice})
	}
}

func (e *expander) scanLists() {
	for _, s := range e.plan().ScanLists.Sorted() {
		c := e.collector(s.Thing(), len(s.Channels))
		c.walk(s.Channels, nil, Place{})
		sc := &ScanChannels{List: s, Members: c.members, Twice: c.twice}
		if s.Priority.IsSet() {
			if found := e.entry(s.Thing(), &s.Priority); len(found) > 0 {
				sc.Priority = found[0]
			}
		}
		e.x.ScanLists = append(e.x.ScanLists, sc)
	}
}

// A collector gathers the channels of one zone or scan list: each once and at
// its first place, and those that an entry without * names again.
type collector struct {
	e       *expander
	from    Thing
	members []Member
	twice   []Member
	asked   nameSet // entries so far
}

func (e *expander) collector(from Thing, entries int) *collector {
	e.gathered.clear()
	e.named.clear()
	return &collector{e: e, from: from, members: make([]Member, 0, entries)}
}

// walk follows entries. inside are the zones that they stand in, from the
// outermost; at is the entry of the outermost that led here, or zero.
func (c *collector) walk(entries []Value[string], inside []*Zone, at Place) {
	for i := range entries {
		entry := &entries[i]
		place := at
		if place.IsZero() {
			place = entry.At
		}
		if !entry.IsSet() {
			continue
		}
		if !c.e.room(place, 1) {
			return
		}
		if key, ok := strings.CutPrefix(entry.V, zonePrefix); ok {
			if z := c.inner(key, place, inside, at.IsZero()); z != nil && c.e.room(place, len(inside)) {
				c.walk(z.Channels, append(slices.Clip(inside), z), place)
			}
			continue
		}
		c.take(entry, place, at.IsZero())
	}
}

// take puts in the channels of an entry. One of another zone is told there if
// it leads nowhere.
func (c *collector) take(entry *Value[string], place Place, own bool) {
	again := !c.asked.add(entry.V)
	if again && (isPattern(entry.V) || !own) {
		return
	}
	var found []*Channel
	if own {
		found = c.e.entry(c.from, entry)
	} else {
		found, _ = c.e.lookUp(entry.V)
	}
	if !c.e.room(place, len(found)) {
		return
	}
	for _, ch := range found {
		m := Member{ch, entry.V, place}
		if c.e.gathered.add(ch) {
			c.members = append(c.members, m)
		}
		if own && !isPattern(entry.V) {
			if named := !c.e.named.add(ch); again || named && len(found) == 1 {
				c.twice = append(c.twice, m)
			}
		}
	}
}

// room reports whether zones and lists may grow by so many steps, and notes where they may not.
func (e *expander) room(at Place, steps int) bool {
	if e.steps += steps; e.steps <= MaxMembers {
		return true
	}
	if e.x.Overflow.IsZero() {
		e.x.Overflow = at
	}
	return false
}

// inner gives the zone that an entry stands for, unless it is unknown, was
// named before, or is the one that is being gathered.
func (c *collector) inner(key string, at Place, inside []*Zone, own bool) *Zone {
	z, ok := c.e.plan().Zones.Find(key)
	switch {
	case !ok:
		if own {
			c.e.unresolved(c.from, "zone", key, at, keysOf(&c.e.plan().Zones))
		}
		return nil
	case z.Thing() == c.from:
		if !c.e.room(at, len(inside)) {
			return nil
		}
		c.e.x.Cycles = append(c.e.x.Cycles, Cycle{Through: thingsOf(append(slices.Clip(inside), z)), At: at})
		return nil
	case !c.asked.add(zonePrefix + key):
		return nil
	}
	return z
}

func thingsOf(zones []*Zone) []Thing {
	things := make([]Thing, len(zones))
	for i, z := range zones {
		things[i] = z.Thing()
	}
	return things
}

// entry gives the channels that an entry names, and notes one that names none.
func (e *expander) entry(from Thing, entry *Value[string]) []*Channel {
	found, kind := e.lookUp(entry.V)
	if len(found) > 0 {
		return found
	}
	if _, written := e.plan().Channels.Find(entry.V); !written { // of one that is, its own path tells
		e.unresolved(from, kind, entry.V, entry.At, e.likely(entry.V))
	}
	return nil
}

// lookUp gives the channels that an entry names, and the word for what it names.
func (e *expander) lookUp(text string) (found []*Channel, kind string) {
	switch {
	case isPattern(text):
		return e.match(text), "talk path"
	case strings.Contains(text, "/"):
		return e.x.OnPath(text), "talk path"
	}
	if c, ok := e.x.byName[text]; ok {
		return e.x.alone(c), "channel"
	}
	return nil, "channel"
}

// likely gives the names that an entry may have meant.
func (e *expander) likely(text string) func() []string {
	switch {
	case isPattern(text):
		return func() []string { return nil }
	case strings.Contains(text, "/"):
		return e.likelyPaths(text)
	}
	return keysOf(&e.plan().Channels)
}

// match gives the channels of the talk paths that a pattern stands for.
func (e *expander) match(pattern string) []*Channel {
	found, ok := e.patterns[pattern]
	if !ok {
		for _, c := range e.paths.match(pattern) {
			found = append(found, e.x.OnPath(c.Path)...)
		}
		e.patterns[pattern] = found
	}
	return found
}
