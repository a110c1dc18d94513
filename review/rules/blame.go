package rules

import (
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// index makes the indexes, once.
func (b *pushing) index() {
	if b.effects != nil {
		return
	}
	b.effects, b.changed, b.causes = make(map[string][]felt), make(map[plan.Thing][]int), make(map[plan.Thing]int)
	for i := range b.Causes {
		c := &b.Causes[i]
		b.causes[c.Thing] = i
		for e := range c.Reach.Channels {
			effect := &c.Reach.Channels[e]
			b.effects[effect.Channel] = append(b.effects[effect.Channel], felt{i, effect})
		}
		keys := c.Reach.Zones
		if c.Thing.Kind == plan.KindScanList {
			keys = c.Reach.ScanLists
		} else if c.Thing.Kind != plan.KindZone {
			continue
		}
		for _, key := range keys {
			list := plan.Thing{Kind: c.Thing.Kind, Key: key}
			b.changed[list] = append(b.changed[list], i)
		}
	}
	b.before = make(map[plan.Thing]map[string]bool)
	for _, z := range b.Old.Zones {
		b.remember(plan.KindZone, z.Zone.Key.V, z.Members)
	}
	for _, s := range b.Old.ScanLists {
		b.remember(plan.KindScanList, s.List.Key.V, s.Members)
	}
}

func (b *pushing) remember(kind plan.Kind, key string, members []plan.Member) {
	names := make(map[string]bool, len(members))
	for _, m := range members {
		names[b.Renames.Translate(plan.RefEntry, m.Channel.Name)] = true
	}
	b.before[plan.Thing{Kind: kind, Key: b.Renames.Key(kind, key)}] = names
}

// oldFit gives what the radio held before the change, or nil if it is new.
func (b *pushing) oldFit(r *plan.Radio) *plan.Fit {
	i := slices.IndexFunc(b.Old.Fits, func(f *plan.Fit) bool { return b.Renames.Key(plan.KindRadio, f.Radio.Key.V) == r.Key.V })
	if i < 0 {
		return nil
	}
	return b.Old.Fits[i]
}

// replaces reports whether an item is a channel in the place of one that was there before.
func (b *pushing) replaces(item string, channels []*plan.Channel, before held) bool {
	return len(channels) == 1 && channels[0].Name == item && slices.ContainsFunc(b.effects[item], func(f felt) bool {
		_, was := before[b.Renames.Translate(plan.RefEntry, f.effect.Was)]
		return f.effect.Was != "" && was
	})
}

// bringing names the aspects of a channel that can make a radio hold more.
var bringing = [plan.LimitCount][]string{
	plan.LimitChannels:             {"receive", "transmit", "mode"},
	plan.LimitZones:                {"receive", "transmit", "mode"},
	plan.LimitChannelsPerZone:      {"receive", "transmit", "mode"},
	plan.LimitGroups:               {"group", "listens for"},
	plan.LimitReceiveLists:         {"listens for"},
	plan.LimitGroupsPerReceiveList: {"listens for"},
	plan.LimitScanLists:            {"scan list"},
	plan.LimitChannelsPerScanList:  {"receive", "transmit", "mode"},
}

// brings reports whether an effect can make a radio hold more against a limit.
func (f felt) brings(limit plan.Limit) bool {
	return f.effect.Op == plandiff.Added ||
		slices.ContainsFunc(f.effect.Aspects, func(a plandiff.Aspect) bool { return slices.Contains(bringing[limit], a.Name) })
}

// blame gives the causes that brought an item into what a limit counts.
func (b *pushing) blame(u use, item string, channels []*plan.Channel) map[int]bool {
	guilty := make(map[int]bool)
	if len(channels) == 0 {
		b.blameRecords(u.limit, item, guilty)
	}
	for _, c := range channels {
		found := false
		for _, f := range b.effects[c.Name] {
			if f.brings(u.limit) {
				guilty[f.cause], found = true, true
			}
		}
		if !found {
			b.blameLists(u, c, guilty)
		}
	}
	if i, ok := b.causes[u.radio()]; ok && len(guilty) == 0 {
		guilty[i] = true
	}
	return guilty
}

// blameRecords finds the record that brings an item which no channel does: a
// message, an operator, or a number key that calls a group.
func (b *pushing) blameRecords(limit plan.Limit, item string, guilty map[int]bool) {
	record := plan.Thing{Kind: plan.KindMessage, Key: item}
	switch limit {
	case plan.LimitOperators:
		record.Kind = plan.KindOperator
	case plan.LimitGroups:
		for _, s := range b.New.Plan.Shortcuts.Sorted() {
			if s.Calls.V == item {
				record = s.Thing()
			}
		}
	}
	if i, ok := b.causes[record]; ok {
		guilty[i] = true
	}
}

// blameLists finds the zones and scan lists whose own change put a channel into the radio.
func (b *pushing) blameLists(u use, c *plan.Channel, guilty map[int]bool) {
	ofOne := u.who.Kind == plan.KindZone || u.who.Kind == plan.KindScanList
	blame := func(list plan.Thing, channels []*plan.Channel) {
		if ofOne && u.who != list || len(b.changed[list]) == 0 || b.before[list][c.Name] || !slices.Contains(channels, c) {
			return
		}
		for _, i := range b.changed[list] {
			guilty[i] = true
		}
	}
	for _, z := range u.fit.Zones {
		blame(z.Zone.Thing(), z.Channels)
	}
	for _, s := range u.fit.ScanLists {
		blame(s.List.Thing(), s.Channels)
	}
}
