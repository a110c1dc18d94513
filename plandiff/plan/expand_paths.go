package plan

import (
	"strings"
)

// talkPaths holds the channels of the talk paths of all repeaters as they are
// where nobody wrote one, in the order of repeaters: fm, slot 1, slot 2.
type talkPaths struct {
	all        []*Channel
	byPath     map[string]*Channel
	byRepeater map[string][]*Channel
	byGroup    map[string][]*Channel
}

func newTalkPaths() *talkPaths {
	return &talkPaths{byPath: map[string]*Channel{}, byRepeater: map[string][]*Channel{}, byGroup: map[string][]*Channel{}}
}

func (t *talkPaths) add(c *Channel) {
	t.all = append(t.all, c)
	t.byPath[c.Path] = c
	t.byRepeater[c.Repeater.Key.V] = append(t.byRepeater[c.Repeater.Key.V], c)
	if c.GroupKey != "" {
		t.byGroup[c.GroupKey] = append(t.byGroup[c.GroupKey], c)
	}
}

func (t *talkPaths) has(path string) bool {
	_, ok := t.byPath[path]
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
			if c, ok := t.byPath[repeater+"/"+s+"/"+group]; ok {
				both = append(both, c)
			}
		}
		return both
	case repeater != "*":
		return t.byRepeater[repeater]
	case group != "" && group != "*":
		return t.byGroup[group]
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
