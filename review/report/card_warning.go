package report

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/card"
	"passband.example/plandiff/plan"
	"passband.example/review"
)

// Warning says that the plan must not reach members, or "".
func (s *Cards) Warning() string {
	if !s.d.Verdict.Blocks() {
		return ""
	}
	n := s.d.Verdict.Count(review.Block, review.New)
	return fmt.Sprintf("Do not use this card: the check of the plan found %d %s that must not reach members.", n, plural(n, "thing"))
}

// warning is Warning for one card, with what it means for it and where that stands.
func (s *Cards) warning(c *card.Card, where string) string {
	w := s.Warning()
	switch {
	case w == "":
		return ""
	case slices.ContainsFunc(c.Rows, func(r card.Row) bool { return s.blocked(c, r) }):
		return w + " What is marked ! is concerned: see " + where + "."
	case slices.ContainsFunc(s.blocks, func(f *review.Finding) bool { return s.concerns(f, c) != "" }):
		return w + " For what is not in order see " + where + "."
	}
	return w + " None is about what stands here."
}

// mostStops is how many findings a card tells in words.
const mostStops = 6

// stops says what of a card must not be used, and why.
func (s *Cards) stops(c *card.Card) []string {
	var lines []string
	more := 0
	for _, f := range s.blocks {
		who := s.concerns(f, c)
		switch {
		case who == "":
		case len(lines) == mostStops:
			more++
		default:
			lines = append(lines, fmt.Sprintf("Not in order, %s: %s.", who, f.What))
		}
	}
	if more > 0 {
		lines = append(lines, fmt.Sprintf("%d more %s not in order here; \"passband check\" lists all.", more, isAre(more)))
	}
	return lines
}

// concerns says what of a card a finding is about: its channels, its zone, its class of radio
// or the whole plan. It gives "" for one about something else.
func (s *Cards) concerns(f *review.Finding, c *card.Card) string {
	if elsewhere(f, c) {
		return ""
	}
	var rows []string
	for _, r := range c.Rows {
		if isAbout(f, r.Channel) {
			rows = append(rows, fmt.Sprintf("%d %s", r.Number, r.Label))
		}
	}
	const most = 5
	has := func(t plan.Thing) bool { return slices.Contains(f.About, t) }
	switch {
	case len(rows) > most:
		return strings.Join(rows[:most], ", ") + fmt.Sprintf(" and %d more", len(rows)-most)
	case len(rows) > 0:
		return strings.Join(rows, ", ")
	case has(c.Zone.Thing()):
		return "this zone"
	case c.Radio != nil && has(c.Radio.Thing()):
		return "this class of radio"
	case len(f.About) == 0 || slices.ContainsFunc(f.About, ofAll):
		return "the whole plan"
	}
	return ""
}

// ofAll reports whether all of a plan rests on a thing.
func ofAll(t plan.Thing) bool { return t.Kind == plan.KindPlan || t.Kind == plan.KindLicenseRow }

// blocked reports whether a blocking finding is about a row of a card, or about what makes it.
func (s *Cards) blocked(c *card.Card, r card.Row) bool {
	return slices.ContainsFunc(s.blocks, func(f *review.Finding) bool { return !elsewhere(f, c) && isAbout(f, r.Channel) })
}

// elsewhere reports whether a finding is about another class of radio than that of a card: what
// is too much for one may be right for this one.
func elsewhere(f *review.Finding, c *card.Card) bool {
	return len(f.About) > 0 && f.About[0].Kind == plan.KindRadio && (c.Radio == nil || f.About[0] != c.Radio.Thing())
}

// isAbout reports whether a finding is about a channel or a record that it is made of. One that
// names the whole plan first is not about a channel that it names for an example.
func isAbout(f *review.Finding, c *plan.Channel) bool {
	return slices.ContainsFunc(f.About, func(t plan.Thing) bool {
		return !ofAll(t) && (t == c.Thing() || slices.ContainsFunc(c.Because, func(b plan.Cause) bool { return b.Thing == t }))
	})
}
