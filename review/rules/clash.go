package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// A clash is a set of channels that show the same, and the zones and radios in
// which they do. However many those are, it is one fault.
type clash struct {
	channels []*plan.Channel // by place
	zones    []*plan.Zone
	radios   []*plan.Radio
	in       map[*plan.Zone]bool
}

// clashes gathers clashes in the order in which they are found.
type clashes struct {
	all []*clash
	by  map[string]*clash
}

func (cs *clashes) add(channels []*plan.Channel, z *plan.Zone, r *plan.Radio) {
	slices.SortFunc(channels, func(a, b *plan.Channel) int {
		return cmp.Or(a.At.Compare(b.At), strings.Compare(a.Name, b.Name))
	})
	id := strings.Join(namesOf(channels), " ")
	c := cs.by[id]
	if c == nil {
		if cs.by == nil {
			cs.by = make(map[string]*clash)
		}
		c = &clash{channels: channels, in: make(map[*plan.Zone]bool)}
		cs.by[id] = c
		cs.all = append(cs.all, c)
	}
	if !c.in[z] {
		c.in[z] = true
		c.zones = append(c.zones, z)
	}
	if r != nil && !slices.Contains(c.radios, r) {
		c.radios = append(c.radios, r)
	}
}

// place gives the line to edit: that of the last channel's label, or the channel
// where its label was made. There is none where a label could not be read.
func (c *clash) place(p *plan.Plan) (plan.Place, bool) {
	for _, ch := range c.channels {
		if len(partsOf(p, ch)) == 0 {
			return plan.Place{}, false
		}
	}
	return labelPlace(c.channels[len(c.channels)-1]), true
}

func labelPlace(c *plan.Channel) plan.Place {
	if c.Spec != nil && c.Spec.Label.IsSet() {
		return c.Spec.Label.At
	}
	return c.At
}

// where names the zones.
func (c *clash) where() string {
	if n := len(c.zones); n > 1 {
		return fmt.Sprintf("%s and %d more", c.zones[0].Thing(), n-1)
	}
	return c.zones[0].Thing().String()
}

// related names the other channels and the zones.
func (c *clash) related() []review.Related {
	var also []review.Related
	for _, ch := range c.channels[:len(c.channels)-1] {
		also = append(also, review.Related{At: labelPlace(ch), Text: fmt.Sprintf("%s is labelled %q", ch.Thing(), ch.Label)})
	}
	for _, z := range c.zones {
		also = append(also, review.Related{At: z.Place(), Text: z.Thing().String() + " holds them"})
	}
	return also
}

// alike gives the channels that show the same text, in sets of two or more.
func alike(channels []*plan.Channel, shown func(*plan.Channel) string) [][]*plan.Channel {
	sets := make(map[string][]*plan.Channel)
	first := make(map[string]*plan.Channel, len(channels))
	var order []string
	for _, c := range channels {
		text := shown(c)
		one, ok := first[text]
		switch {
		case !ok:
			first[text] = c
			continue
		case len(sets[text]) == 0:
			sets[text] = []*plan.Channel{one}
			order = append(order, text)
		}
		sets[text] = append(sets[text], c)
	}
	found := make([][]*plan.Channel, len(order))
	for i, text := range order {
		found[i] = sets[text]
	}
	return found
}

func channelsOf(members []plan.Member) []*plan.Channel {
	channels := make([]*plan.Channel, len(members))
	for i, m := range members {
		channels[i] = m.Channel
	}
	return channels
}
