package chronicle

import (
	"strconv"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// inherits gives trails of the fields that say a fact of a channel.
func (t trail) inherits(c *plandiff.Comparison, fact string) []trail {
	ch, ok := c.New.Find(t.thing.Key)
	if !t.channel || !ok {
		return nil
	}
	var from []trail
	for _, f := range plandiff.Facts(c.New, ch) {
		if f.Name != fact {
			continue
		}
		for _, w := range f.From {
			field := w.Field
			if w.Item != "" {
				field = itemField(w.Field, w.Item)
			}
			from = append(from, trail{thing: w.Thing, asked: t.asked, fact: fact, fields: map[string]string{field: fact}})
		}
	}
	return from
}

// touched gives the attributes that a comparison changed, with what they were
// before, and whether the thing is new altogether.
func (t trail) touched(c *plandiff.Comparison, back plan.Renames) (was map[string]Origin, isNew bool) {
	if t.channel {
		return t.touchedChannel(c, back)
	}
	was = make(map[string]Origin)
	for i := range c.Changes {
		change := &c.Changes[i]
		if change.Thing != t.thing || change.Op == plandiff.Removed {
			continue
		}
		switch change.Op {
		case plandiff.Added:
			return was, true
		case plandiff.Renamed:
			was[KeyAttribute] = Origin{Was: []string{change.Was.Key}}
		}
		for _, e := range change.Edits {
			was[e.Field] = Origin{Was: e.Old}
			for _, s := range e.Steps {
				o := Origin{Step: s.Op}
				if s.From > 0 {
					o.Was = []string{strconv.Itoa(s.From)}
				}
				was[itemField(e.Field, s.Text)] = o
			}
		}
	}
	return was, false
}

func (t trail) touchedChannel(c *plandiff.Comparison, back plan.Renames) (was map[string]Origin, isNew bool) {
	was = make(map[string]Origin)
	if _, ok := c.New.Find(t.thing.Key); !ok {
		return was, false // what changes reach was not asked for: nothing touches it
	}
	before, ok := t.channelBefore(c, back)
	if ok && before.thing.Key != t.thing.Key {
		was[KeyAttribute] = Origin{Was: []string{before.thing.Key}}
	}
	if e := effectOn(c, t.thing.Key); e != nil {
		for _, a := range e.Aspects {
			o := Origin{}
			if a.Old != "" {
				o.Was = []string{a.Old}
			}
			was[a.Name] = o
		}
	}
	return was, !ok
}
