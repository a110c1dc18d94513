package rf

import (
	"fmt"
	"math"

	"passband.example/plandiff/signal"
)

// A chooser tries pairs for a wish. The new station is the last of its search, and the only one
// that counts as ours there.
type chooser struct {
	wish    Wish
	search  *search
	self    int
	site    []signal.Hertz // what the site sends on; the first is the new station's
	hearing []Receiver
	choice  Choice
}

func newChooser(t *Table, w Wish) *chooser {
	c := &chooser{wish: w, self: len(w.Stations)}
	stations := make([]Station, 0, c.self+1)
	for _, s := range w.Stations {
		s.Ours = false
		stations = append(stations, s)
	}
	c.search = &search{table: t, stations: stations, factor: reachFactor}
	c.choice.Unplaced = c.search.enroll().Unplaced
	c.search.draw()
	self := w.Station
	self.Ours, self.Callsign = true, "" // a station of the same holder on one pair is a conflict too
	c.search.stations = append(c.search.stations, self)
	c.search.spots = append(c.search.spots, spotOf(self.Place))
	c.gather()
	return c
}

// gather finds what is at the site already.
func (c *chooser) gather() {
	c.site, c.hearing = make([]signal.Hertz, 1), make([]Receiver, 1)
	for i := range c.wish.Stations {
		s := &c.wish.Stations[i]
		if s.Place == nil || distance3(c.search.spots[c.self].at, spotOf(s.Place).at) > OneSiteM+c.search.spots[c.self].slack+s.Place.Slack() {
			continue
		}
		switch Distance(*c.wish.Station.Place, *s.Place).NearerThan(OneSiteM) {
		case Yes:
			c.choice.Site = append(c.choice.Site, i)
			c.site = append(c.site, s.Output)
			c.hearing = append(c.hearing, Receiver{Frequency: s.Input})
		case CannotTell:
			c.choice.MaybeSite = append(c.choice.MaybeSite, i)
		}
	}
}

// try returns a pair as a candidate, or why it is none.
func (c *chooser) try(pair Pair) (candidate Candidate, fault Fault) {
	candidate = Candidate{Pair: pair, Margin: math.Inf(1)}
	if !c.search.table.Holds(pair.Output) {
		return candidate, NoRow
	}
	if c.wish.Allowed != nil {
		reason, ok := c.wish.Allowed(pair)
		if !ok {
			return candidate, NotAllowed
		}
		candidate.because(reason)
	}
	if !c.apart(&candidate) {
		return candidate, TooNear
	}
	if !c.clean(&candidate) {
		return candidate, OnSite
	}
	return candidate, noFault
}

// apart looks for the station that leaves the least room, and tells whether that is enough.
func (c *chooser) apart(candidate *Candidate) bool {
	c.search.found = worst[Conflict]{keep: MostConflicts, compare: compareConflicts}
	self := &c.search.stations[c.self]
	self.Output, self.Input = candidate.Output, candidate.Input
	c.search.around(c.self)
	near, _ := c.search.settle() // the gravest first
	if len(near) == 0 {
		candidate.because(fmt.Sprintf("no station is known on it or beside it within %d times the asked distance", reachFactor))
		return true
	}
	if near[0].Short != No {
		return false
	}
	candidate.Nearest, candidate.Margin = &near[0], near[0].Share()
	candidate.because(near[0].describe(c.wish.Stations[near[0].B].Name))
	return true
}

// describe says how much room a conflict that is none leaves.
func (c *Conflict) describe(name string) string {
	return fmt.Sprintf("%s to %s at %s, bearing %.0f; the table asks %s", c.Kind, name, inWords(c.Distance.Least), c.Bearing, c.Row.Cite())
}

// inWords rounds a distance for people, in kilometers and miles.
func inWords(meters float64) string {
	return fmt.Sprintf("%.0f km (%.0f mi)", meters/1000, meters/mileM)
}

// clean looks for products that the pair causes or suffers at its site, and tells whether none is
// of third order or a harmonic. A site too large to look at has none that are known.
func (c *chooser) clean(candidate *Candidate) bool {
	if len(c.site) > MostTransmitters || len(c.hearing) > MostReceivers {
		candidate.because("the site has too many transmitters to look for mixing products")
		return true
	}
	c.site[0], c.hearing[0] = candidate.Output, Receiver{Frequency: candidate.Input}
	m := newMixer(c.site)
	m.wanted = func(p Product) bool {
		return p.Receiver == 0 || p.Of[0] == 0 || p.Of[1] == 0 || p.Of[2] == 0
	}
	products := m.mix(c.hearing).Products
	if len(products) > 0 && (products[0].Form.Harmonic() || products[0].Form.Order() == 3) {
		return false
	}
	candidate.Weak = products
	switch {
	case len(products) > 0:
		candidate.because(fmt.Sprintf("%d fifth-order products at the site: ask the site engineer; the first is %s", len(products), products[0].Formula(c.site)))
	case len(c.choice.Site) > 0:
		candidate.because(fmt.Sprintf("stations at the site: %d; no mixing product or harmonic with them", len(c.choice.Site)))
	}
	return true
}

func (c *Candidate) because(reason string) {
	if reason != "" {
		c.Reasons = append(c.Reasons, reason)
	}
}
