package plan

import (
	"slices"
	"strings"
	"unicode/utf8"

	"passband.example/plandiff/signal"
)

// A Fit is what one class of radio holds of a plan.
type Fit struct {
	Radio     *Radio
	Channels  []*Channel
	Zones     []FitZone
	ScanLists []FitList
	Groups    []string // the keys of the groups it needs as contacts, sorted
	Lists     int      // different receive lists
	LongList  int      // groups in the longest of them
	LongOf    *Channel // a channel that uses the longest
	LeftOut   []LeftOut
	Uses      []Use // what is counted against each limit, in the order of the limits
}

// FitZone is a zone as one class of radio holds it.
type FitZone struct {
	Zone     *Zone
	Channels []*Channel
}

// FitList is a scan list as one class of radio holds it.
type FitList struct {
	List     *ScanList
	Channels []*Channel
}

// LeftOut is a channel of the radio's zones that it cannot use, and why.
type LeftOut struct {
	Channel *Channel
	Why     string
}

// Use counts something against a limit. Most is zero where the radio states none.
type Use struct {
	Limit Limit
	Used  int
	Most  int
	At    Place // where the limit is stated, or the radio's key
	Who   Thing // the zone, list or message that uses most, where the limit is on one of many
}

// Label gives the label of a channel as the radio shows it: cut to its length.
func (f *Fit) Label(c *Channel) string { return f.Cut(c.Label) }

// Cut shortens a label to what the radio shows.
func (f *Fit) Cut(label string) string {
	most := f.Radio.LabelLength.Or(0)
	if most == 0 || utf8.RuneCountInString(label) <= most {
		return label
	}
	return strings.TrimRight(string([]rune(label)[:most]), " ")
}

// Carries reports whether the radio carries the zone.
func (f *Fit) Carries(z *Zone) bool { return carries(f.Radio, z.Key.V) }

func carries(r *Radio, zone string) bool {
	return len(r.Zones) == 0 || slices.ContainsFunc(r.Zones, func(v Value[string]) bool { return v.IsSet() && v.V == zone })
}

// fit works out what a class of radio holds.
func (e *expander) fit(r *Radio) *Fit {
	f := &Fit{Radio: r}
	held := make(map[*Channel]bool)
	left := make(map[*Channel]bool)
	take := func(members []Member) []*Channel {
		var fit []*Channel
		for _, m := range members {
			why := misfit(r, m.Channel)
			if why != "" {
				if !left[m.Channel] {
					left[m.Channel] = true
					f.LeftOut = append(f.LeftOut, LeftOut{m.Channel, why})
				}
				continue
			}
			fit = append(fit, m.Channel)
			if !held[m.Channel] {
				held[m.Channel] = true
				f.Channels = append(f.Channels, m.Channel)
			}
		}
		return fit
	}
	for _, z := range e.x.Zones {
		if carries(r, z.Zone.Key.V) {
			if fit := take(z.Members); len(fit) > 0 {
				f.Zones = append(f.Zones, FitZone{z.Zone, fit})
			}
		}
	}
	used := make(map[string]bool)
	for _, c := range f.Channels {
		used[c.ScanList] = true
	}
	for _, s := range e.x.ScanLists {
		if used[s.List.Key.V] || len(r.Zones) == 0 {
			if fit := take(s.Members); len(fit) > 0 {
				f.ScanLists = append(f.ScanLists, FitList{s.List, fit})
			}
		}
	}
	e.contacts(f)
	f.Uses = e.uses(f)
	return f
}

// misfit says why a radio cannot use a channel, or "".
func misfit(r *Radio, c *Channel) string {
	if len(r.Modes) > 0 && !slices.ContainsFunc(r.Modes, func(m Value[Mode]) bool { return m.V == c.Mode }) {
		return "it has no " + strings.ToUpper(string(c.Mode))
	}
	for _, f := range []signal.Hertz{c.Receive, c.Transmit} {
		if f != 0 && !tunes(r, f) {
			return "it does not tune " + f.String() + " MHz"
		}
	}
	return ""
}

func tunes(r *Radio, f signal.Hertz) bool {
	return len(r.Bands) == 0 || slices.ContainsFunc(r.Bands, func(b Value[Band]) bool { return b.IsSet() && b.V.Holds(f) })
}

// contacts counts the groups and receive lists that the radio's channels and
// shortcuts need.
func (e *expander) contacts(f *Fit) {
	groups := make(map[string]bool)
	lists := make(map[string]bool)
	for _, c := range f.Channels {
		if c.Mode != ModeDMR {
			continue
		}
		if c.GroupKey != "" {
			groups[c.GroupKey] = true
		}
		if len(c.Listens) == 0 {
			continue
		}
		name := strings.Join(c.Listens, " ")
		if lists[name] {
			continue
		}
		lists[name] = true
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
