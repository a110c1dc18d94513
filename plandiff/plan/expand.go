package plan

import (
	"slices"
	"strings"
)

// MaxMembers is how many channels all zones and scan lists of a plan may hold
// together: patterns with * could otherwise make of a short file more than a
// computer holds.
const MaxMembers = 5_000_000

// Expand works a plan out into channels, zones and lists, and for each class of
// radio what fits it. It never fails: what cannot be worked out is left out and
// told in Unresolved, Cycles and Overflow.
func Expand(p *Plan) *Expansion {
	e := &expander{
		x:        &Expansion{Plan: p, byName: map[string]*Channel{}, byPath: map[string][]*Channel{}},
		listens:  map[string][]string{},
		patterns: map[string][]*Channel{},
	}
	e.channels()
	e.zones()
	e.scanLists()
	e.checkRefs()
	for _, r := range p.Radios.Sorted() {
		e.x.Fits = append(e.x.Fits, e.fit(r))
	}
	return e.x
}

type expander struct {
	x         *Expansion
	repeaters []*Repeater           // sorted by key
	listens   map[string][]string   // groups of a receive list, by what names it
	patterns  map[string][]*Channel // what a pattern with * stands for
	members   int                   // channels in all zones and lists so far
}

func (e *expander) plan() *Plan { return e.x.Plan }

func (e *expander) unresolved(from Thing, kind, text string, at Place, known []string) {
	e.x.Unresolved = append(e.x.Unresolved, Unresolved{From: from, Kind: kind, Text: text, At: at, Near: Nearest(text, known)})
}

// channels makes the channels of talk paths and of the section channels.
// A channel that somebody wrote for a talk path stands in for the one that
// would be made for it.
func (e *expander) channels() {
	p := e.plan()
	own := make(map[string][]onPath)
	specs := p.Channels.Sorted()
	for _, spec := range specs {
		if spec.Path.IsSet() {
			if path, via, ok := e.pathOf(spec); ok {
				own[path] = append(own[path], onPath{spec, via})
			}
		}
	}
	e.repeaters = p.Repeaters.Sorted()
	for _, r := range e.repeaters {
		for _, c := range e.repeaterPaths(r) {
			if len(own[c.Path]) == 0 {
				e.add(c)
			}
			for _, o := range own[c.Path] {
				e.add(e.specialise(c, o.spec, o.via...))
			}
		}
	}
	for _, spec := range specs {
		if !spec.Path.Written() {
			e.add(e.direct(spec))
			for _, o := range own[spec.Key.V] {
				e.add(e.specialise(e.direct(spec), o.spec, o.via...))
			}
		}
	}
}

func (e *expander) add(c *Channel) {
	if _, taken := e.x.byName[c.Name]; taken {
		return // a duplicate key, which loading has told
	}
	e.x.Channels = append(e.x.Channels, c)
	e.x.byName[c.Name] = c
	e.x.byPath[c.Path] = append(e.x.byPath[c.Path], c)
}

// onPath is a channel that somebody wrote for a talk path, and the channels
// through which it names the path.
type onPath struct {
	spec *ChannelSpec
	via  []*ChannelSpec
}

// mostHops is how many channels a path may lead through.
const mostHops = 8

// pathOf gives the talk path that a channel is of, following channels that name
// other channels. It notes a path that leads nowhere, or in a circle.
func (e *expander) pathOf(spec *ChannelSpec) (path string, via []*ChannelSpec, ok bool) {
	for at := spec; ; {
		path = at.Path.V
		if strings.Contains(path, "/") {
			if e.hasPath(path) {
				return path, via, true
			}
			if at == spec {
				e.unresolved(spec.Thing(), "talk path", path, spec.Path.At, e.knownPaths(path))
			}
			return "", nil, false
		}
		next, found := e.plan().Channels.Find(path)
		switch {
		case !found && at == spec || len(via) == mostHops:
			e.unresolved(spec.Thing(), "channel", spec.Path.V, spec.Path.At, keysOf(e.plan().Channels.All()))
			return "", nil, false
		case found && !next.Path.Written():
			return path, via, true
		case !found || !next.Path.IsSet():
			return "", nil, false // told of the channel that says so
		case next == spec:
			e.x.Cycles = append(e.x.Cycles, Cycle{Through: circle(spec, via), At: spec.Path.At})
			return "", nil, false
		case slices.Contains(via, next):
			return "", nil, false // a circle further on, told there
		}
		via = append(via, next)
		at = next
	}
}

func circle(spec *ChannelSpec, via []*ChannelSpec) []Thing {
	through := []Thing{spec.Thing()}
	for _, v := range via {
		through = append(through, v.Thing())
	}
	return append(through, spec.Thing())
}

// hasPath reports whether a repeater has the talk path.
func (e *expander) hasPath(path string) bool {
	parts := strings.Split(path, "/")
	r, ok := e.plan().Repeaters.Find(parts[0])
	switch {
	case !ok:
		return false
	case len(parts) == 2:
		return parts[1] == string(ModeFM) && r.FM.Present.IsSet()
	}
	i := slices.Index(slotNames[:], parts[1])
	return i >= 0 && slices.ContainsFunc(r.DMR.Slots[i], func(g Value[string]) bool { return g.IsSet() && g.V == parts[2] })
}

// knownPaths gives what may have been meant by a talk path: those of its
// repeater, or the same on a repeater with a similar key.
func (e *expander) knownPaths(path string) []string {
	key, rest, _ := strings.Cut(path, "/")
	r, ok := e.plan().Repeaters.Find(key)
	if !ok {
		near := Nearest(key, keysOf(e.plan().Repeaters.All()))
		return []string{near + "/" + rest}
	}
	var paths []string
	for _, c := range e.repeaterPaths(r) {
		paths = append(paths, c.Path)
	}
	return paths
}

func keysOf[R Record](rows []R) []string {
	keys := make([]string, len(rows))
	for i, r := range rows {
		keys[i] = r.Thing().Key
	}
	return keys
}
