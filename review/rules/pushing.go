package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

// A pushing tells which changes filled a radio. Its indexes are made when the
// first limit is crossed.
type pushing struct {
	*plandiff.Comparison
	effects map[string][]felt              // by channel
	changed map[plan.Thing][]int           // causes that are zones or scan lists, by the zones and lists that they reach
	before  map[plan.Thing]map[string]bool // channels of the old zones and scan lists
	causes  map[plan.Thing]int
}

// felt is an effect of a cause on a channel.
type felt struct {
	cause  int
	effect *plandiff.Effect
}

// whatAdded names the causes that added something to what a limit counts, those that
// added most first. There are none where one plan is checked alone.
func (b *pushing) whatAdded(u use) []review.Related {
	if b.Comparison == nil {
		return nil
	}
	b.index()
	added := make(map[int]int)
	now := heldBy(b.New.Plan, u.fit, u.limit, u.who, nil)
	old := b.oldFit(u.fit.Radio)
	before := held{}
	if old != nil {
		before = heldBy(b.Old.Plan, old, u.limit, u.who, b.Renames)
	}
	for item, channels := range now {
		if _, was := before[item]; was || b.replaces(item, channels, before) {
			continue
		}
		for cause := range b.blame(u, item, channels) {
			added[cause]++
		}
	}
	return append(b.lowered(u), b.told(added)...)
}

// told puts the causes into words.
func (b *pushing) told(added map[int]int) []review.Related {
	order := make([]int, 0, len(added))
	for cause := range added {
		order = append(order, cause)
	}
	slices.SortFunc(order, func(x, y int) int { return cmp.Or(cmp.Compare(added[y], added[x]), cmp.Compare(x, y)) })
	var also []review.Related
	for _, i := range order {
		c := &b.Causes[i]
		also = append(also, review.Related{At: c.Changes[0].At, Text: fmt.Sprintf("this change to %s adds %d", c.Thing, added[i])})
	}
	return also
}

// lowered tells of a change that lowers the limit itself.
func (b *pushing) lowered(u use) []review.Related {
	i, ok := b.causes[u.radio()]
	if !ok {
		return nil
	}
	for _, change := range b.Causes[i].Changes {
		e := change.Field("limits." + u.limit.String())
		if e == nil || change.Op != plandiff.Changed || len(e.New) == 0 {
			continue
		}
		if len(e.Old) == 0 {
			return []review.Related{{At: change.At, Text: "this change sets the limit"}}
		}
		if was, err := strconv.Atoi(e.Old[0]); err == nil && was > u.most {
			return []review.Related{{At: change.At, Text: fmt.Sprintf("this change lowers the limit from %d to %d", was, u.most)}}
		}
	}
	return nil
}
