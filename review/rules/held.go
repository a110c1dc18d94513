package rules

import (
	"strings"

	"passband.example/plandiff/plan"
)

// A held is the items that a radio holds against a limit, in the keys of the new
// plan, and the channels that bring each of them. What no channel brings has none.
type held map[string][]*plan.Channel

func (h held) add(item string, c ...*plan.Channel) { h[item] = append(h[item], c...) }

// heldBy gives the items that a radio holds against a limit, of one zone or list
// where the limit is of one. The keys are translated with ren, for a plan that is
// older than it.
func heldBy(p *plan.Plan, fit *plan.Fit, limit plan.Limit, who plan.Thing, ren plan.Renames) held {
	h := make(held)
	switch limit {
	case plan.LimitChannels:
		h.channels(fit.Channels, ren)
	case plan.LimitZones, plan.LimitChannelsPerZone:
		for _, z := range fit.Zones {
			h.list(limit == plan.LimitZones, plan.Thing{Kind: plan.KindZone, Key: ren.Key(plan.KindZone, z.Zone.Key.V)}, z.Channels, who, ren)
		}
	case plan.LimitScanLists, plan.LimitChannelsPerScanList:
		for _, s := range fit.ScanLists {
			h.list(limit == plan.LimitScanLists, plan.Thing{Kind: plan.KindScanList, Key: ren.Key(plan.KindScanList, s.List.Key.V)}, s.Channels, who, ren)
		}
	case plan.LimitGroups, plan.LimitReceiveLists, plan.LimitGroupsPerReceiveList:
		for _, c := range fit.Channels {
			h.contacts(p, c, limit, who, ren)
		}
		if limit == plan.LimitGroups {
			for _, g := range fit.Groups { // those that a number key alone calls
				h.add(ren.Key(plan.KindGroup, g))
			}
		}
	case plan.LimitMessages:
		for _, m := range p.Messages.All() {
			h.add(ren.Key(plan.KindMessage, m.Key.V))
		}
	case plan.LimitOperators:
		for _, o := range p.Operators.All() {
			h.add(ren.Key(plan.KindOperator, o.Key.V))
		}
	}
	return h
}

func (h held) channels(channels []*plan.Channel, ren plan.Renames) {
	for _, c := range channels {
		h.add(ren.Translate(plan.RefEntry, c.Name), c)
	}
}

// list adds a zone or scan list as one item, or its channels if it is the one asked for.
func (h held) list(whole bool, list plan.Thing, channels []*plan.Channel, who plan.Thing, ren plan.Renames) {
	switch {
	case whole:
		h.add(list.Key, channels...)
	case list == who:
		h.channels(channels, ren)
	}
}

// contacts adds the groups that a channel needs, or the receive list that they make.
func (h held) contacts(p *plan.Plan, c *plan.Channel, limit plan.Limit, who plan.Thing, ren plan.Renames) {
	if c.Mode != plan.ModeDMR {
		return
	}
	listens := make([]string, len(c.Listens))
	for i, g := range c.Listens {
		listens[i] = ren.Key(plan.KindGroup, g)
	}
	switch {
	case limit == plan.LimitReceiveLists:
		if len(listens) > 0 {
			h.add(strings.Join(listens, " "), c)
		}
		return
	case limit == plan.LimitGroups && c.GroupKey != "":
		h.add(ren.Key(plan.KindGroup, c.GroupKey), c)
	case limit == plan.LimitGroupsPerReceiveList:
		by := listenedTo(p, c)
		if by.Key = ren.Key(by.Kind, by.Key); by != who {
			return
		}
	}
	for _, g := range listens {
		h.add(g, c)
	}
}
