package rules

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// several joins names as a person does, and counts those beyond the third.
func several(names []string) string {
	const most = 3
	if len(names) > most+1 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	if n := len(names) - 1; n > 0 {
		return strings.Join(names[:n], ", ") + " and " + names[n]
	}
	return strings.Join(names, "")
}

func namesOf(channels []*plan.Channel) []string {
	names := make([]string, len(channels))
	for i, c := range channels {
		names[i] = c.Name
	}
	return names
}

// byName names channels as things, in an order that no edit of layout changes.
func byName(channels []*plan.Channel) []plan.Thing {
	things := make([]plan.Thing, len(channels))
	for i, c := range channels {
		things[i] = c.Thing()
	}
	slices.SortFunc(things, func(a, b plan.Thing) int { return strings.Compare(a.Key, b.Key) })
	return things
}
