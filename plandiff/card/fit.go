package card

import (
	"fmt"

	"passband.example/plandiff/plan"
)

// carried makes the cards of all zones that a radio carries. All of them are looked
// at, whichever are wanted: how much room there is depends on the zones before.
func carried(x *plan.Expansion, fit *plan.Fit) []*Card {
	why := make(map[*plan.Channel]string)
	for _, l := range fit.LeftOut {
		why[l.Channel] = l.Why
	}
	memory := memory{fit: fit, held: map[*plan.Channel]int{}}
	var cards []*Card
	for _, z := range x.Zones {
		if !fit.Carries(z.Zone) {
			continue
		}
		c := &Card{Zone: z.Zone, Radio: fit.Radio}
		for _, m := range z.Members {
			if left := why[m.Channel]; left != "" {
				c.LeftOut = append(c.LeftOut, plan.LeftOut{Channel: m.Channel, Why: left})
				continue
			}
			c.Rows = append(c.Rows, Row{Number: len(c.Rows) + 1, Channel: m.Channel, Label: fit.Label(m.Channel)})
		}
		memory.load(c)
		cards = append(cards, c)
	}
	return cards
}

// memory counts what has gone into a radio so far.
type memory struct {
	fit   *plan.Fit
	zones int
	held  map[*plan.Channel]int // the how many-th it was
}

// load says of a card what the radio has no room for.
func (m *memory) load(c *Card) {
	if len(c.Rows) == 0 {
		return
	}
	m.zones++
	if most := m.most(plan.LimitZones); most > 0 && m.zones > most {
		c.Beyond = fmt.Sprintf("its limit of zones is %d, and this is number %d", most, m.zones)
	}
	for i := range c.Rows {
		r := &c.Rows[i]
		if m.held[r.Channel] == 0 {
			m.held[r.Channel] = len(m.held) + 1
		}
		switch inZone, inAll := m.most(plan.LimitChannelsPerZone), m.most(plan.LimitChannels); {
		case inZone > 0 && r.Number > inZone:
			r.Beyond = fmt.Sprintf("its limit of channels per zone is %d", inZone)
		case inAll > 0 && m.held[r.Channel] > inAll:
			r.Beyond = fmt.Sprintf("its limit of channels is %d", inAll)
		}
	}
}

// most gives a limit of the radio, 0 where it states none.
func (m *memory) most(limit plan.Limit) int { return m.fit.Radio.Limits[limit].Or(0) }
