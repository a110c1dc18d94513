package plan

import (
	"slices"
	"strings"
)

// contacts counts the groups and receive lists that the radio's channels and
// shortcuts need. Two receive lists with the same groups count as one.
func (e *expander) contacts(f *Fit) {
	groups := make(map[string]bool)
	looked := make(map[*string]bool) // lists that channels share, by their first group
	lists := make(map[string]bool)
	for _, c := range f.Channels {
		if c.GroupKey != "" {
			groups[c.GroupKey] = true
		}
		if len(c.Listens) == 0 || looked[&c.Listens[0]] {
			continue
		}
		looked[&c.Listens[0]] = true
		lists[strings.Join(c.Listens, " ")] = true
		for _, g := range c.Listens {
			groups[g] = true
		}
		if len(c.Listens) > f.LongList {
			f.LongList, f.LongOf = len(c.Listens), c
		}
	}
	for _, s := range e.plan().Shortcuts.All() {
		if _, ok := e.plan().Groups.Find(s.Calls.V); ok && len(groups) > 0 {
			groups[s.Calls.V] = true
		}
	}
	f.Lists = len(lists)
	for g := range groups {
		f.Groups = append(f.Groups, g)
	}
	slices.Sort(f.Groups)
}
