package report

import (
	"fmt"
	"strings"

	"passband.example/plandiff/card"
	"passband.example/review"
)

// listenFirst stands on every card before the caution.
const listenFirst = "Listen first: whoever is talking was there before you."

// Cards shows cards for newcomers: Page for a terminal or as Markdown, JSON for
// programs, HTML to print. The verdict of d is that of the whole plan.
type Cards struct {
	d      *Document
	cards  []*card.Card
	blocks []*review.Finding // what must not reach members
}

// NewCards makes what shows cards.
func NewCards(d *Document, cards []*card.Card) *Cards {
	s := &Cards{d: d, cards: cards}
	for i := range d.Verdict.Findings {
		if f := &d.Verdict.Findings[i]; f.Severity == review.Block {
			s.blocks = append(s.blocks, f)
		}
	}
	return s
}

// Page shows the cards for a person who reads text.
func (s *Cards) Page() *Page {
	p := new(Page)
	s.d.title(p, "Cards")
	if len(s.cards) == 0 {
		p.paragraph(text("There is no zone to make a card of: write one in the section "), code("zones"), text("."))
	}
	for _, c := range s.cards {
		s.card(p, c)
	}
	if w := s.Warning(); w != "" && len(s.cards) == 0 {
		p.paragraph(Span{w, Blocks})
	}
	p.paragraph(faint("%s %s", listenFirst, caution))
	return p
}

func (s *Cards) card(p *Page, c *card.Card) {
	p.heading(2, strong(c.Zone.Called()), text("%s", s.on(c)))
	t := table{
		head:    []string{"", "label", "hears", "sends", "split", "opens with", "when"},
		numbers: []bool{true, false, true, true, true, false, false},
	}
	for _, r := range c.Rows {
		t.rows = append(t.rows, []Span{
			text("%s", s.number(c, r)), text("%s", r.Label), text("%s", r.Hears()), text("%s", r.Sends()),
			text("%s", r.Split()), text("%s", r.Opens()), text("%s", r.When()),
		})
	}
	if len(t.rows) > 0 {
		p.table(t)
	}
	for _, note := range s.notes(c) {
		p.item(0, text("%s", note))
	}
	if w := s.warning(c, "above"); w != "" {
		p.paragraph(Span{w, Blocks})
	}
}

// number gives the number of a channel, marked where a finding blocks it.
func (s *Cards) number(c *card.Card, r card.Row) string {
	if s.blocked(c, r) {
		return fmt.Sprintf("! %d", r.Number)
	}
	return fmt.Sprint(r.Number)
}

// on says for which radio a card is.
func (s *Cards) on(c *card.Card) string {
	if c.Radio == nil {
		return ""
	}
	return " on " + c.Radio.Called()
}

// notes says what a card must not hide: what of it must not be used, what there is no room for, what the radio cannot
// use, what makes a channel one to listen to, and which repeaters it goes through.
func (s *Cards) notes(c *card.Card) []string {
	var all reasons
	if c.Beyond != "" {
		all.add("No room for this zone on the radio", c.Beyond, "")
	}
	for _, r := range c.Rows {
		if r.Beyond != "" {
			all.add("No room on the radio", r.Beyond, fmt.Sprintf("%d %s", r.Number, r.Label))
		}
	}
	for _, l := range c.LeftOut {
		all.add("Not on this radio", l.Why, l.Channel.Label)
	}
	for _, r := range c.Rows {
		if key, at := r.ListensBecause(); key != "" {
			all.add("Never send there", "the plan says "+key, fmt.Sprintf("%d %s, %s", r.Number, r.Label, s.d.place(at)))
		}
	}
	lines := append(s.stops(c), all.lines()...)
	if called := c.Repeaters(); len(called) > 0 {
		lines = append(lines, "Repeaters and their callsigns: "+strings.Join(called, "; ")+".")
	}
	return lines
}

// reasons gathers names by what is said of them, in the order of the first of each.
type reasons struct {
	order []string
	names map[string][]string
}

func (r *reasons) add(what, why, name string) {
	head := fmt.Sprintf("%s (%s)", what, why)
	if r.names == nil {
		r.names = make(map[string][]string)
	}
	if _, there := r.names[head]; !there {
		r.order = append(r.order, head)
		r.names[head] = nil
	}
	if name != "" {
		r.names[head] = append(r.names[head], name)
	}
}

func (r *reasons) lines() []string {
	lines := make([]string, len(r.order))
	for i, head := range r.order {
		lines[i] = head + "."
		if names := r.names[head]; len(names) > 0 {
			lines[i] = head + ": " + strings.Join(names, "; ") + "."
		}
	}
	return lines
}
