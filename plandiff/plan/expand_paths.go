package plan

import (
	"strings"
	"sync"
)

// talkPaths holds the channels of the talk paths of all repeaters as they are
// where nobody wrote one, in the order of repeaters: fm, slot 1, slot 2.
type talkPaths struct {
	all        []*Channel
	byRepeater map[string][]*Channel
	byPath     func() map[string]*Channel // worked out where it is asked for
	byGroup    func() map[string][]*Channel
}

func newTalkPaths(repeaters []*Repeater) *talkPaths {
	most := 0
	for _, r := range repeaters {
		most += 1 + len(r.DMR.Slots[0]) + len(r.DMR.Slots[1])
	}
	t := &talkPaths{all: make([]*Channel, 0, most), byRepeater: make(map[string][]*Channel, len(repeaters))}
	t.byPath = sync.OnceValue(func() map[string]*Channel {
		byPath := make(map[string]*Channel, len(t.all))
		for _, c := range t.all {
			byPath[c.Path] = c
		}
		return byPath
	})
	t.byGroup = sync.OnceValue(func() map[string][]*Channel {
		byGroup := make(map[string][]*Channel)
		for _, c := range t.all {
			if c.GroupKey != "" {
				byGroup[c.GroupKey] = append(byGroup[c.GroupKey], c)
			}
		}
		return byGroup
	})
	return t
}

// add puts in the talk paths of a repeater.
func (t *talkPaths) add(r *Repeater, paths []*Channel) {
	t.all = append(t.all, paths...)
	t.byRepeater[r.Key.V] = paths
}

func (t *talkPaths) has(path string) bool {
	_, ok := t.byPath()[path]
	return ok
}

// isPattern reports whether an entry has a * in it.
func isPattern(entry string) bool { return strings.Contains(entry, "*") }

// match gives the talk paths that a pattern stands for. ridge/* stands for all
// of ridge, ridge/*/statewide for a group on either slot.
func (t *talkPaths) match(pattern string) []*Channel {
	want := strings.Split(pattern, "/")
	if len(want) == 2 {
		want = append(want, "")
	}
	repeater, slot, group := want[0], want[1], want[2]
	var found []*Channel
	for _, c := range t.candidates(repeater, slot, group) {
		if matches(repeater, c.Repeater.Key.V) && matchesRest(c, slot, group) {
			found = append(found, c)
		}
	}
	return found
}

// candidates narrows down what a pattern may stand for, so that no number of
// different patterns takes more than a few looks at each talk path.
func (t *talkPaths) candidates(repeater, slot, group string) []*Channel {
	switch {
	case group == "" && slot != "*" && slot != string(ModeFM), group != "" && slot != "*" && slot != "1" && slot != "2":
		return nil
	case repeater != "*" && group != "" && group != "*":
		var both []*Channel
		for _, s := range slotNames {
			if c, ok := t.byPath()[repeater+"/"+s+"/"+group]; ok {
				both = append(both, c)
			}
		}
		return both
	case repeater != "*":
		return t.byRepeater[repeater]
	case group != "" && group != "*":
		return t.byGroup()[group]
	}
	return t.all
}

func matches(want, name string) bool { return want == "*" || want == name }

func matchesRest(c *Channel, slot, group string) bool {
	switch {
	case group == "":
		return slot == "*" || c.Mode == ModeFM
	case c.Mode == ModeFM:
		return false
	}
	return matches(slot, c.Slot.String()) && matches(group, c.GroupKey)
}

// likelyPaths gives what may have been meant by a talk path: one of its
// repeater, or of a repeater with a similar key.
func (e *expander) likelyPaths(path string) func() []string {
	return func() []string {
		key, _, _ := strings.Cut(path, "/")
		if _, ok := e.plan().Repeaters.Find(key); !ok {
			key = Nearest(key, keysOf(&e.plan().Repeaters)())
		}
		var paths []string
		for _, c := range e.paths.byRepeater[key] {
			paths = append(paths, c.Path)
		}
		return paths
	}
}
