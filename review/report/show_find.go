package report

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// found is what a name means in a plan.
type found struct {
	repeaters []*plan.Repeater
	channels  []*plan.Channel
	groups    []*plan.Group
	zones     []*plan.ZoneChannels
	operators []*plan.Operator
	neighbors []*plan.Neighbor
}

// find looks a name up: a key, a talk path, a callsign or a radio ID, with the
// kind before it where only that is meant; and where nothing has that name, a label
// or the number of a group.
func find(x *plan.Expansion, name string) (found, error) {
	kind, key := askedKind(name)
	var f found
	asked := func(k plan.Kind) bool { return kind == 0 || kind == k }
	if asked(plan.KindRepeater) {
		f.repeaters = repeatersNamed(x, key)
	}
	if asked(plan.KindChannel) {
		f.channels = channelsNamed(x, key)
	}
	if g, ok := x.Plan.Groups.Find(key); ok && asked(plan.KindGroup) {
		f.groups = append(f.groups, g)
	}
	for _, z := range x.Zones {
		if z.Zone.Key.V == key && asked(plan.KindZone) {
			f.zones = append(f.zones, z)
		}
	}
	if asked(plan.KindOperator) {
		f.operators = operatorsNamed(x, key)
	}
	if asked(plan.KindNeighbor) {
		f.neighbors = neighborsNamed(x, key)
	}
	if f.empty() {
		f = byLabel(x, key, asked)
	}
	if f.empty() {
		return f, nothing(x, name, key)
	}
	return f, nil
}

func (f *found) empty() bool {
	return len(f.repeaters)+len(f.channels)+len(f.groups)+len(f.zones)+len(f.operators)+len(f.neighbors) == 0
}

// byLabel looks up what a person reads on the display, or the number of a group.
func byLabel(x *plan.Expansion, name string, asked func(plan.Kind) bool) found {
	var f found
	for _, r := range x.Plan.Repeaters.Sorted() {
		if asked(plan.KindRepeater) && strings.EqualFold(r.Called(), name) {
			f.repeaters = append(f.repeaters, r)
		}
	}
	for _, c := range x.Channels {
		if asked(plan.KindChannel) && strings.EqualFold(c.Label, name) {
			f.channels = append(f.channels, c)
		}
	}
	for _, g := range x.Plan.Groups.Sorted() {
		if asked(plan.KindGroup) && (strings.EqualFold(g.Called(), name) || g.ID.IsSet() && g.ID.V.String() == name) {
			f.groups = append(f.groups, g)
		}
	}
	for _, z := range x.Zones {
		if asked(plan.KindZone) && strings.EqualFold(z.Zone.Called(), name) {
			f.zones = append(f.zones, z)
		}
	}
	return f
}

// shown lists the kinds of thing that can be shown.
func shown() []plan.Kind {
	return []plan.Kind{plan.KindRepeater, plan.KindChannel, plan.KindGroup, plan.KindZone, plan.KindOperator, plan.KindNeighbor}
}

// askedKind splits "group local" into its kind and key.
func askedKind(name string) (plan.Kind, string) {
	for _, kind := range shown() {
		if key, ok := strings.CutPrefix(name, kind.String()+" "); ok {
			return kind, key
		}
	}
	return 0, name
}

// Names gives every name that Show explains, sorted.
func Names(x *plan.Expansion) []string {
	var names []string
	for _, c := range x.Channels {
		names = append(names, c.Name, c.Path)
	}
	for _, kind := range []plan.Kind{plan.KindRepeater, plan.KindGroup, plan.KindZone} {
		for _, r := range plan.SectionOf(kind).All(x.Plan) {
			names = append(names, r.Thing().Key)
		}
	}
	for _, r := range x.Plan.Repeaters.All() {
		names = append(names, string(r.Callsign.Or("")))
	}
	for _, o := range x.Plan.Operators.All() {
		names = append(names, string(o.Callsign.Or("")))
	}
	for _, n := range x.Plan.Neighbors.All() {
		names = append(names, string(n.Callsign.Or("")))
	}
	slices.Sort(names)
	names = slices.Compact(names)
	return slices.DeleteFunc(names, func(name string) bool { return name == "" })
}

// repeatersNamed gives the repeater with this key, else those with this callsign.
func repeatersNamed(x *plan.Expansion, name string) []*plan.Repeater {
	if r, ok := x.Plan.Repeaters.Find(name); ok {
		return []*plan.Repeater{r}
	}
	var all []*plan.Repeater
	for _, r := range x.Plan.Repeaters.All() {
		if r.Callsign.IsSet() && strings.EqualFold(string(r.Callsign.V), name) {
			all = append(all, r)
		}
	}
	return all
}

// channelsNamed gives the channel with this name and those on this talk path.
func channelsNamed(x *plan.Expansion, name string) []*plan.Channel {
	channels := slices.Clone(x.OnPath(name))
	if c, ok := x.Find(name); ok && !slices.Contains(channels, c) {
		channels = append(channels, c)
	}
	return channels
}

// operatorsNamed gives the rows with this callsign or radio ID.
func operatorsNamed(x *plan.Expansion, name string) []*plan.Operator {
	var people []*plan.Operator
	for _, o := range x.Plan.Operators.All() {
		if o.Callsign.IsSet() && strings.EqualFold(string(o.Callsign.V), name) || o.ID.IsSet() && o.ID.V.String() == name {
			people = append(people, o)
		}
	}
	return people
}

// neighborsNamed gives the rows of the neighbor list with this callsign, label, or both.
func neighborsNamed(x *plan.Expansion, name string) []*plan.Neighbor {
	var all []*plan.Neighbor
	for _, n := range x.Plan.Neighbors.All() {
		if name != "" && (strings.EqualFold(string(n.Callsign.Or("")), name) || strings.EqualFold(n.Label.Or(""), name) || strings.EqualFold(n.Called(), name)) {
			all = append(all, n)
		}
	}
	return all
}
