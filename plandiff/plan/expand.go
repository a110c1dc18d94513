package plan

import (
	"cmp"
	"slices"
	"strings"
)

// MaxMembers bounds the channels that all zones and scan lists of a plan hold
// together, counting also each entry and each zone inside a zone that is followed:
// patterns and zones could otherwise make of a short file more than a computer holds.
const MaxMembers = 5_000_000

// Expand works a plan out into channels, zones and lists, and for each class of
// radio what fits it. It never fails: what cannot be worked out is left out and
// told in Unresolved, Cycles and Overflow.
func Expand(p *Plan) *Expansion {
	e := &expander{
		x:        &Expansion{Plan: p, byPath: map[string][]*Channel{}},
		listens:  map[string][]string{},
		patterns: map[string][]*Channel{},
	}
	e.channels()
	e.zones()
	e.scanLists()
	e.checkRefs()
	slices.SortStableFunc(e.x.Unresolved, func(a, b Unresolved) int {
		return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Text, b.Text))
	})
	e.fits()
	return e.x
}

type expander struct {
	x        *Expansion
	paths    *talkPaths
	listens  map[string][]string   // groups of a receive list, by what names it
	carried  carried               // what was worked out last of a repeater's slots
	patterns map[string][]*Channel // what a pattern with * stands for
	steps    int                   // towards MaxMembers
	near     suggester
	spare    []Channel // not used yet: channels are made in blocks
	gathered marks     // channels that the zone or list at hand holds
	named    marks     // and those that an entry of its own names, without *
}

func (e *expander) plan() *Plan { return e.x.Plan }

// unresolved notes a reference that leads nowhere. known gives what may have been meant.
func (e *expander) unresolved(from Thing, kind, text string, at Place, known func() []string) {
	n := e.near.to(kind, text, known)
	e.x.Unresolved = append(e.x.Unresolved, Unresolved{From: from, Kind: kind, Text: text, At: at, Near: n.word, OnlyNear: n.only})
}

// channels makes the channels of talk paths and of the section channels.
// A channel that somebody wrote for a talk path stands in for the one that
// would be made for it.
func (e *expander) channels() {
	repeaters, specs := e.plan().Repeaters.Sorted(), e.plan().Channels.Sorted()
	e.paths = newTalkPaths(repeaters)
	for _, r := range repeaters {
		e.paths.add(r, e.repeaterPaths(r))
	}
	most := len(e.paths.all) + len(specs)
	e.x.Channels, e.x.byName = make([]*Channel, 0, most), make(map[string]*Channel, most)
	own := make(map[string][]onPath)
	for _, spec := range specs {
		if spec.Path.IsSet() {
			if path, via, ok := e.pathOf(spec); ok {
				own[path] = append(own[path], onPath{spec, via})
			}
		}
	}
	for _, c := range e.paths.all {
		if len(own[c.Path]) == 0 {
			e.add(c)
		}
		for _, o := range own[c.Path] {
			e.add(e.specialise(e.copied(c), o.spec, o.via...))
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
	e.gathered, e.named = newMarks(e.x), newMarks(e.x)
}

func (e *expander) add(c *Channel) {
	c.index = int32(len(e.x.Channels))
	e.x.Channels = append(e.x.Channels, c)
	if on := e.x.OnPath(c.Path); len(on) > 0 || c.Name != c.Path {
		e.x.byPath[c.Path] = append(on, c)
	}
	e.x.byName[c.Name] = c
}

// blockOfChannels is how many channels are made at a time: most plans have hundreds.
const blockOfChannels = 64

// channel makes an empty channel with room for what it will be made of.
func (e *expander) channel() *Channel {
	if len(e.spare) == 0 {
		e.spare = make([]Channel, blockOfChannels)
	}
	c := &e.spare[0]
	e.spare = e.spare[1:]
	c.Because = make([]Cause, 0, 3)
	return c
}

// copied gives a channel once more, to be made into another.
func (e *expander) copied(c *Channel) *Channel {
	s := e.channel()
	because := append(s.Because, c.Because...)
	*s = *c
	s.Because = because
	return s
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
			if e.paths.has(path) {
				return path, via, true
			}
			if at == spec {
				e.unresolved(spec.Thing(), "talk path", path, spec.Path.At, e.likelyPaths(path))
			}
			return "", nil, false
		}
		next, found := e.plan().Channels.Find(path)
		switch {
		case !found && at == spec || len(via) == mostHops:
			e.unresolved(spec.Thing(), "channel", spec.Path.V, spec.Path.At, keysOf(&e.plan().Channels))
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
