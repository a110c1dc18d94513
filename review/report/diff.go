package report

import (
	"fmt"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// Diff reports what changed from one plan to another, with what it reaches.
func Diff(d *Document) *Page {
	p := new(Page)
	d.title(p, "Changes")
	d.changes(p)
	return p
}

// changes lists the causes, each with its changes and, folded, its effects.
func (d *Document) changes(p *Page) {
	c := d.Comparison
	if c.Empty() {
		p.paragraph(text("Nothing changed: the two plans mean the same."))
		return
	}
	d.causes(p, c.Causes)
	d.summary(p)
}

// causes lists what was edited, the operators together.
func (d *Document) causes(p *Page, causes []plandiff.Cause) {
	var people []*plandiff.Cause
	for i := range causes {
		if causes[i].Thing.Kind == plan.KindOperator {
			people = append(people, &causes[i])
		}
	}
	for i := range causes {
		switch cause := &causes[i]; {
		case cause.Thing.Kind != plan.KindOperator:
			d.cause(p, cause)
		case cause == people[0]:
			d.people(p, people)
		}
	}
}

// foldedPeople is how many operators are named before the rest is only counted.
const foldedPeople = 12

// people lists the operators who came, went or changed under one heading: a club
// adds them by the dozen.
func (d *Document) people(p *Page, causes []*plandiff.Cause) {
	p.item(0, strong(count(len(causes), "operator")), faint(" [%s]", plan.Label))
	for i, cause := range causes {
		if i == foldedPeople && !d.Unfold && len(causes) > foldedPeople+1 {
			p.detail(0, "", text("and %d more", len(causes)-i))
			break
		}
		who, _ := d.operator(cause.Thing)
		for j := range cause.Changes {
			d.person(p, who, &cause.Changes[j])
		}
	}
	if radios := causes[0].Reach.Radios; len(radios) > 0 && !d.brief {
		p.detail(1, "load again", keys(radios)...)
	}
}

func (d *Document) person(p *Page, who string, c *plandiff.Change) {
	switch c.Op {
	case plandiff.Added:
		p.detail(0, "", Line{Span{who, New}, text(" is new")}.and(d.at(c.At)...)...)
	case plandiff.Removed:
		p.detail(0, "", Line{Span{who, Old}, text(" is gone")}.and(d.wasAt(c.WasAt)...)...)
	default:
		for i := range c.Edits {
			e := &c.Edits[i]
			p.detail(0, "", Line{code(who), text(": %s ", fieldWords(e.Field))}.and(value(e)...).and(d.where(e)...)...)
		}
	}
}

func (d *Document) cause(p *Page, cause *plandiff.Cause) {
	p.item(0, strong(named(d, cause.Thing)), faint(" [%s]", cause.Weight))
	for i := range cause.Changes {
		d.change(p, &cause.Changes[i])
	}
	if !d.brief {
		d.reach(p, cause)
	}
}

// named gives a thing with its label, as members know it.
func named(d *Document, t plan.Thing) string {
	if t.Kind == plan.KindPlan {
		return "the plan itself"
	}
	if o, ok := d.operator(t); ok {
		return fmt.Sprintf("operator %s", o)
	}
	for _, x := range []*plan.Expansion{d.Comparison.New, d.Comparison.Old} {
		if r, ok := x.Plan.Find(t); ok {
			if n, ok := r.(*plan.Neighbor); ok {
				return neighborName(n)
			}
			if label := labelOf(r); label != "" && label != t.Key {
				return calledAs(t, label)
			}
		}
	}
	return t.String()
}

// neighborName names a row of the neighbor list: its key is all that it says, too long for people.
func neighborName(n *plan.Neighbor) string {
	name := "neighbor " + n.Called()
	if n.Output.IsSet() && (n.Callsign.IsSet() || n.Label.IsSet()) {
		name += ", " + megahertz(n.Output.V)
	}
	return name
}

func (d *Document) operator(t plan.Thing) (string, bool) {
	if t.Kind != plan.KindOperator {
		return "", false
	}
	for _, x := range []*plan.Expansion{d.Comparison.New, d.Comparison.Old} {
		if o, ok := x.Plan.Operators.Find(t.Key); ok {
			return strings.TrimSpace(fmt.Sprintf("%s, %s %s", o.ID.V, o.Callsign.V, o.Person.V)), true
		}
	}
	return "", false
}

func labelOf(r plan.Record) string {
	f := plan.SectionOf(r.Thing().Kind).Field("label")
	if f == nil {
		return ""
	}
	if items := f.Items(r); len(items) == 1 {
		return items[0].Text
	}
	return ""
}

// summary counts what changed and names the classes of radio to load again.
func (d *Document) summary(p *Page) {
	c := d.Comparison
	weights := make(map[plan.Weight]int)
	radios := make(map[string]bool)
	for i := range c.Causes {
		weights[c.Causes[i].Weight]++
		if c.Causes[i].Weight != plan.Policy {
			for _, r := range c.Causes[i].Reach.Radios {
				radios[r] = true
			}
		}
	}
	var parts []string
	for _, w := range []plan.Weight{plan.Air, plan.Layout, plan.Label, plan.Policy} {
		if weights[w] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", weights[w], w))
		}
	}
	p.paragraph(text("%s to %s (%s).", count(len(c.Changes), "change"), count(len(c.Causes), "record"), strings.Join(parts, ", ")))
	for _, k := range c.Capped {
		p.paragraph(text("More records of the kind %s came and went than passband pairs up, so that one with a new key may show as gone and new.", k))
	}
	d.memory(p)
}

// memory shows the radios that hold another number of channels than before.
func (d *Document) memory(p *Page) {
	t := table{head: []string{"radio", "channels before", "now", "limit"}, numbers: []bool{false, true, true, true}}
	for _, now := range d.Comparison.New.Fits {
		before, held := "-", fmt.Sprint(len(now.Channels))
		for _, was := range d.Comparison.Old.Fits {
			if d.Comparison.Renames.Key(plan.KindRadio, was.Radio.Key.V) == now.Radio.Key.V {
				before = fmt.Sprint(len(was.Channels))
			}
		}
		limit := "-"
		if u := now.Uses[plan.LimitChannels]; u.Most > 0 {
			limit = fmt.Sprint(u.Most)
		}
		if before != held {
			t.rows = append(t.rows, []Span{code(now.Radio.Key.V), text("%s", before), text("%s", held), text("%s", limit)})
		}
	}
	if len(t.rows) > 0 {
		p.table(t)
	}
}
