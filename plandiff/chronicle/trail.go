package chronicle

import (
	"maps"
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// A trail is something that is followed back through history, as one commit
// calls it: a record, or a channel by its name.
type trail struct {
	thing   plan.Thing // of a channel, its kind and name, which may be a talk path
	channel bool       // it is the channel worked out, not a record
	asked   int        // which of the things that were asked for it is
	fact    string     // of a record that makes a channel: the fact of the channel that is looked for
	waiting bool       // it is not there any more: where it went is looked for

	// fields holds what about it is still looked for, as this commit calls it, with
	// the attribute that it is of the thing that was asked for; nil in a log.
	fields map[string]string
}

// joined puts the trails of two lines together.
func joined(a, b []trail) []trail {
	for _, t := range b {
		i := slices.IndexFunc(a, func(u trail) bool {
			return u.thing == t.thing && u.channel == t.channel && u.asked == t.asked && u.fact == t.fact && u.waiting == t.waiting
		})
		if i < 0 {
			a = append(a, t)
			continue
		}
		if a[i].fields != nil {
			a[i].fields = maps.Clone(a[i].fields)
			maps.Copy(a[i].fields, t.fields)
		}
	}
	return a
}

// before gives the trail as the plan before calls it, or false where the thing
// is new.
func (t trail) before(c *plandiff.Comparison, back plan.Renames) (trail, bool) {
	switch {
	case t.waiting:
		return t.found(c), true
	case t.channel:
		return t.channelBefore(c, back)
	}
	t.fields = itemsBefore(t, back)
	for i := range c.Changes {
		if change := &c.Changes[i]; change.Thing == t.thing && change.Op != plandiff.Removed {
			t.thing = change.Was
			return t, change.Op != plandiff.Added
		}
	}
	return t, true
}

// itemsBefore writes the items of lists that are looked for in the keys of the
// plan before.
func itemsBefore(t trail, back plan.Renames) map[string]string {
	if len(back) == 0 || t.fields == nil {
		return t.fields
	}
	before := make(map[string]string, len(t.fields))
	for field, attribute := range t.fields {
		if name, item, ok := strings.Cut(field, itemMark); ok {
			field = itemField(name, back.Translate(plan.SectionOf(t.thing.Kind).Field(name).Ref, item))
		}
		before[field] = attribute
	}
	return before
}

// itemField names one item of a list as something that is looked for.
func itemField(field, item string) string { return field + itemMark + item }

const itemMark = "\x00"

func (t trail) channelBefore(c *plandiff.Comparison, back plan.Renames) (trail, bool) {
	if _, ok := c.New.Find(t.thing.Key); !ok {
		return t, true // what changes reach was not asked for: nothing touches it
	}
	if e := effectOn(c, t.thing.Key); e != nil {
		if e.Was != "" {
			t.thing.Key = e.Was
			return t, true
		}
	}
	t.thing.Key = back.Translate(plan.RefEntry, t.thing.Key)
	_, was := c.Old.Find(t.thing.Key)
	return t, was
}

// effectOn gives what a comparison says of a channel of the new plan, or nil
// where it behaves as before.
func effectOn(c *plandiff.Comparison, name string) *plandiff.Effect {
	for i := range c.Causes {
		for j, e := range c.Causes[i].Reach.Channels {
			if e.Channel == name && e.Op != plandiff.Removed {
				return &c.Causes[i].Reach.Channels[j]
			}
		}
	}
	return nil
}

// found wakes a trail that waits for its thing to go, or to get another key.
func (t trail) found(c *plandiff.Comparison) trail {
	for i := range c.Changes {
		if change := &c.Changes[i]; t.lost(change) {
			return trail{thing: change.Was, asked: t.asked, fields: t.fields}
		}
	}
	return t
}

// lost reports whether a change takes the thing away that a trail waits for.
func (t trail) lost(c *plandiff.Change) bool {
	return (c.Op == plandiff.Removed || c.Op == plandiff.Renamed) &&
		c.Was.Key == t.thing.Key && (t.thing.Kind == 0 || t.thing.Kind == c.Was.Kind)
}

// backwards gives the renames of a comparison from the new keys to the old ones.
func backwards(c *plandiff.Comparison) plan.Renames {
	back := make(plan.Renames, len(c.Renames))
	for was, now := range c.Renames {
		back[plan.Thing{Kind: was.Kind, Key: now}] = was.Key
	}
	return back
}
