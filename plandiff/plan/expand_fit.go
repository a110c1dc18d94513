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
func (f *Fit) Carries(z *Zone) bool {
	return len(f.Radio.Zones) == 0 || slices.ContainsFunc(f.Radio.Zones, func(v Value[string]) bool { return v.IsSet() && v.V == z.Key.V })
}

// mostFitted bounds the channels that all classes of radio of a plan hold together.
const mostFitted = 10_000_000

// fits works out what each class of radio holds.
func (e *expander) fits() {
	longest := e.longestMessage()
	fitted := 0
	for _, r := range e.plan().Radios.Sorted() {
		f := newFitter(r, e.x, mostFitted-fitted)
		f.zones(e.x.Zones)
		f.scanLists(e.x.ScanLists)
		if f.room < 0 && e.x.Overflow.IsZero() {
			e.x.Overflow = r.Place()
		}
		fitted = mostFitted - f.room
		e.contacts(f.Fit)
		f.Uses = e.uses(f.Fit, longest)
		e.x.Fits = append(e.x.Fits, f.Fit)
	}
}

// A fitter fills one class of radio.
type fitter struct {
	*Fit
	held, left marks
	room       int // channels that may still be looked at

	modes []Mode // those it has; none: any
	bands []Band // those it tunes; none: any
}

// newFitter fills r with channels of x.
func newFitter(r *Radio, x *Expansion, room int) *fitter {
	return &fitter{
		Fit: &Fit{Radio: r}, held: newMarks(x), left: newMarks(x), room: room,
		modes: stated(r.Modes), bands: stated(r.Bands),
	}
}

// stated gives the values of a list, none where one could not be read: that may be any.
func stated[T any](list []Value[T]) []T {
	var values []T
	for _, v := range list {
		if v.Bad {
			return nil
		}
		values = append(values, v.V)
	}
	return values
}

func (f *fitter) zones(zones []*ZoneChannels) {
	for _, z := range zones {
		if f.Carries(z.Zone) {
			if fit := f.take(z.Members); len(fit) > 0 {
				f.Zones = append(f.Zones, FitZone{z.Zone, fit})
			}
		}
	}
}

// scanLists takes the lists that start from a channel of the radio, and all of
// them where it carries all zones.
func (f *fitter) scanLists(lists []*ScanChannels) {
	used := make(map[string]bool)
	for _, c := range f.Channels {
		used[c.ScanList] = true
	}
	for _, s := range lists {
		if used[s.List.Key.V] || len(f.Radio.Zones) == 0 {
			if fit := f.take(s.Members); len(fit) > 0 {
				f.ScanLists = append(f.ScanLists, FitList{s.List, fit})
			}
		}
	}
}

// take gives the members that fit, and notes those that do not.
func (f *fitter) take(members []Member) []*Channel {
	if f.room -= 1 + len(members); f.room < 0 {
		return nil
	}
	fit := make([]*Channel, 0, len(members))
	for i := range members {
		c := members[i].Channel
		if why := f.misfit(c); why != "" {
			if f.left.add(c) {
				f.LeftOut = append(f.LeftOut, LeftOut{c, why})
			}
			continue
		}
		fit = append(fit, c)
		if f.held.add(c) {
			f.Channels = append(f.Channels, c)
		}
	}
	return fit
}

// misfit says why the radio cannot use a channel, or "".
func (f *fitter) misfit(c *Channel) string {
	if len(f.modes) > 0 && !slices.Contains(f.modes, c.Mode) {
		return "it has no " + strings.ToUpper(string(c.Mode))
	}
	for _, on := range [...]signal.Hertz{c.Receive, c.Transmit} {
		if on != 0 && !f.tunes(on) {
			return "it does not tune " + on.String() + " MHz"
		}
	}
	return ""
}

func (f *fitter) tunes(on signal.Hertz) bool {
	return len(f.bands) == 0 || slices.ContainsFunc(f.bands, func(b Band) bool { return b.Holds(on) })
}
