package card

import (
	"fmt"

	"passband.example/plandiff/plan"
)

// A Card is one zone, as one class of radio holds it or as the plan has it.
type Card struct {
	Zone    *plan.Zone
	Radio   *plan.Radio // nil: as the plan has it
	Rows    []Row
	LeftOut []plan.LeftOut // the zone's channels that the radio cannot use
	Beyond  string         // why the radio has no room for the whole zone, or ""
}

// A Row is one channel of a card.
type Row struct {
	Number  int // on the knob, from 1
	Channel *plan.Channel
	Label   string // as the radio shows it
	Beyond  string // why the radio has no room for it, or ""
}

// A Choice says which cards are wanted, by keys. The zero value wants one card a zone
// of the plan.
type Choice struct{ Zone, Radio string }

// Of makes the cards of a choice, in the order of the keys of the zones. The error
// says that the plan has no such zone or radio, or that the radio does not carry the
// zone, and what was likely meant.
func Of(x *plan.Expansion, choice Choice) ([]*Card, error) {
	zones, err := zonesOf(x, choice.Zone)
	if err != nil {
		return nil, err
	}
	if choice.Radio == "" {
		cards := make([]*Card, len(zones))
		for i, z := range zones {
			cards[i] = &Card{Zone: z.Zone, Rows: rows(z.Members)}
		}
		return cards, nil
	}
	fit, err := fitOf(x, choice.Radio)
	if err != nil {
		return nil, err
	}
	var cards []*Card
	for _, c := range carried(x, fit) {
		if choice.Zone == "" || c.Zone.Key.V == choice.Zone {
			cards = append(cards, c)
		}
	}
	if len(cards) == 0 && choice.Zone != "" {
		return nil, fmt.Errorf("radio %s does not carry zone %s; look at its key zones", choice.Radio, choice.Zone)
	}
	return cards, nil
}

func zonesOf(x *plan.Expansion, key string) ([]*plan.ZoneChannels, error) {
	if key == "" {
		return x.Zones, nil
	}
	var keys []string
	for _, z := range x.Zones {
		if z.Zone.Key.V == key {
			return []*plan.ZoneChannels{z}, nil
		}
		keys = append(keys, z.Zone.Key.V)
	}
	return nil, unknown("zone", key, keys)
}

func fitOf(x *plan.Expansion, key string) (*plan.Fit, error) {
	var keys []string
	for _, f := range x.Fits {
		if f.Radio.Key.V == key {
			return f, nil
		}
		keys = append(keys, f.Radio.Key.V)
	}
	return nil, unknown("class of radio", key, keys)
}

func unknown(what, key string, known []string) error {
	if near := plan.Nearest(key, known); near != "" {
		return fmt.Errorf("the plan has no %s %q; did you mean %s?", what, key, near)
	}
	return fmt.Errorf("the plan has no %s %q; \"passband card --help\" says how to name one", what, key)
}

func rows(members []plan.Member) []Row {
	all := make([]Row, len(members))
	for i, m := range members {
		all[i] = Row{Number: i + 1, Channel: m.Channel, Label: m.Channel.Label}
	}
	return all
}

// Repeaters names the repeaters of the card with their callsigns, in its order.
func (c *Card) Repeaters() []string {
	var called []string
	seen := make(map[*plan.Repeater]bool)
	for _, r := range c.Rows {
		rep := r.Channel.Repeater
		if rep == nil || seen[rep] {
			continue
		}
		seen[rep] = true
		name := rep.Called()
		if rep.Callsign.IsSet() {
			name += " " + string(rep.Callsign.V)
		}
		called = append(called, name)
	}
	return called
}
