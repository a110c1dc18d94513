package rules

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"unicode/utf8"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// A use counts what one class of radio holds against one of its limits: of the
// radio as a whole, or of one zone, list or message.
type use struct {
	fit   *plan.Fit
	limit plan.Limit
	used  int
	most  int
	who   plan.Thing // the zone, list or message; zero for the radio as a whole
	at    plan.Place // where it stands; for the radio, the limit
}

// usesOf counts against each limit that the radio states, and against those of one
// zone, list or message each of them.
func usesOf(p *plan.Plan, fit *plan.Fit) []use {
	var all []use
	for _, total := range fit.Uses {
		if total.Most == 0 {
			continue
		}
		u := use{fit: fit, limit: total.Limit, used: total.Used, most: total.Most, at: total.At}
		each := func(n int, who plan.Thing, at plan.Place) {
			u.used, u.who, u.at = n, who, at
			all = append(all, u)
		}
		switch u.limit {
		case plan.LimitChannelsPerZone:
			for _, z := range fit.Zones {
				each(len(z.Channels), z.Zone.Thing(), z.Zone.Place())
			}
		case plan.LimitChannelsPerScanList:
			for _, s := range fit.ScanLists {
				each(len(s.Channels), s.List.Thing(), s.List.Place())
			}
		case plan.LimitMessageLength:
			for _, m := range p.Messages.Sorted() {
				each(utf8.RuneCountInString(m.Text.V), m.Thing(), m.Place())
			}
		case plan.LimitGroupsPerReceiveList:
			longest := make(map[plan.Thing]int)
			for _, c := range fit.Channels {
				if who := listenedTo(p, c); who.Kind != 0 {
					longest[who] = max(longest[who], len(c.Listens))
				}
			}
			for _, who := range slices.SortedFunc(maps.Keys(longest), compareThings) {
				if r, ok := p.Find(who); ok {
					each(longest[who], who, r.Place())
				}
			}
		default:
			all = append(all, u)
		}
	}
	return all
}

func compareThings(a, b plan.Thing) int {
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Key, b.Key))
}

// listenedTo gives the record that says what a channel listens for: a receive
// list, or the repeater whose slots it listens to; none where it has no list.
func listenedTo(p *plan.Plan, c *plan.Channel) plan.Thing {
	if c.Mode != plan.ModeDMR || len(c.Listens) == 0 {
		return plan.Thing{}
	}
	if l, ok := p.ReceiveLists.Find(c.ReceiveList); ok {
		return l.Thing()
	}
	return c.Repeater.Thing()
}

func (u use) radio() plan.Thing { return u.fit.Radio.Thing() }

// What is counted, and what makes room, for each limit.
var limitWords = [plan.LimitCount]struct{ counted, relief string }{
	plan.LimitChannels:             {"channels", "give the radio fewer zones, or take channels out of them"},
	plan.LimitZones:                {"zones", "give the radio fewer zones, or put small ones together"},
	plan.LimitChannelsPerZone:      {"channels", "move channels into another zone"},
	plan.LimitGroups:               {"groups", "give the radio fewer zones, or let its channels listen for fewer groups"},
	plan.LimitMessages:             {"messages", "take out messages that nobody sends"},
	plan.LimitMessageLength:        {"characters", "write it shorter"},
	plan.LimitOperators:            {"operators", "take out rows of people who left"},
	plan.LimitReceiveLists:         {"receive lists", "let channels share a receive list"},
	plan.LimitGroupsPerReceiveList: {"groups to listen for", "take groups out of the list"},
	plan.LimitScanLists:            {"scan lists", "let channels share a scan list"},
	plan.LimitChannelsPerScanList:  {"channels", "take channels out of the list, or split it"},
}

// String says how much is used of how much.
func (u use) String() string {
	words := limitWords[u.limit].counted
	if u.who.Kind == 0 {
		return fmt.Sprintf("%s needs room for %d %s and holds %d", u.radio(), u.used, words, u.most)
	}
	return fmt.Sprintf("%s has %d %s, and %s holds %d", u.who, u.used, words, u.radio(), u.most)
}

// relief says what makes room.
func (u use) relief() string { return limitWords[u.limit].relief }

// finding says how much is used. It stands at the zone, list or message that uses
// it, or at the limit.
func (u use) finding() review.Finding {
	f := review.Finding{At: u.at, About: []plan.Thing{u.radio()}, Values: []string{u.limit.String()}, What: u.String(),
		Source: "the limits that the plan states for the radio"}
	if u.who.Kind != 0 {
		f.About = append(f.About, u.who)
		f.Also = []review.Related{{At: u.fit.Radio.Limits[u.limit].At, Text: "the limit"}}
	}
	return f
}
