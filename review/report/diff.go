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

// foldedEffects is how many channels of a cause are named before the rest is
// only counted.
const foldedEffects = 4

// changes lists the causes, each with its changes and, folded, its effects.
func (d *Document) changes(p *Page) {
	c := d.Comparison
	if c.Empty() {
		p.paragraph(text("Nothing changed: the two plans mean the same."))
		return
	}
	var people []*plandiff.Cause
	for i := range c.Causes {
		if c.Causes[i].Thing.Kind == plan.KindOperator {
			people = append(people, &c.Causes[i])
		}
	}
	for i := range c.Causes {
		switch cause := &c.Causes[i]; {
		case cause.Thing.Kind != plan.KindOperator:
			d.cause(p, cause)
		case cause == people[0]:
			d.people(p, people)
		}
	}
	d.summary(p)
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
	if radios := causes[0].Reach.Radios; len(radios) > 0 {
		p.detail(1, "load again", keys(radios)...)
	}
}

func (d *Document) person(p *Page, who string, c *plandiff.Change) {
	switch c.Op {
	case plandiff.Added:
		p.detail(0, "", Span{who, New}, text(" is new"), faint(" (%s)", d.place(c.At)))
	case plandiff.Removed:
		p.detail(0, "", Span{who, Old}, text(" is gone"), faint(" (was at %s)", d.place(c.WasAt)))
	default:
		for i := range c.Edits {
			e := &c.Edits[i]
			p.detail(0, "", append(append(Line{code(who), text(": %s ", fieldWords(e.Field))}, value(e)...), faint(" (%s)", d.place(c.At)))...)
		}
	}
}

func (d *Document) cause(p *Page, cause *plandiff.Cause) {
	p.item(0, strong(named(d, cause.Thing)), faint(" [%s]", cause.Weight))
	for i := range cause.Changes {
		d.change(p, &cause.Changes[i])
	}
	d.reach(p, cause)
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
			if label := labelOf(r); label != "" && label != t.Key {
				return fmt.Sprintf("%s (%s)", t, label)
			}
		}
	}
	return t.String()
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

// change says one change.
func (d *Document) change(p *Page, c *plandiff.Change) {
	at := faint(" (%s)", d.place(c.At))
	switch {
	case c.Op == plandiff.Renamed:
		p.detail(0, "", text("has the key "), Span{c.Thing.Key, New}, text(" now, was "), Span{c.Was.Key, Old}, text(" (%s)", match(c.Match)), at)
	case c.Op == plandiff.Added || c.Op == plandiff.Removed:
		verb := strong("is new")
		if c.Op == plandiff.Removed {
			verb = strong("is gone")
			at = faint(" (was at %s)", d.place(c.WasAt))
		}
		p.detail(0, "", append(Line{verb, text(": ")}, append(contents(c), at)...)...)
	case c.Retuned():
		p.detail(0, "", append(append(Line{text("moved: ")}, append(value(c.Field("output")), append(Line{text(", and members send on ")}, value(c.Field("input"))...)...)...), at)...)
	default:
		for i := range c.Edits {
			d.edit(p, &c.Edits[i], at)
			at = Span{}
		}
	}
}

func match(m plandiff.Match) string {
	if m.How == plandiff.ByAlike {
		return fmt.Sprintf("%d %% alike", m.Alike)
	}
	return m.How.String()
}

// contents names what a record that came or went holds.
func contents(c *plandiff.Change) Line {
	var line Line
	for _, e := range c.Edits {
		texts := append(append([]string{}, e.Old...), e.New...)
		if e.Form == plan.Flag || len(texts) == 0 {
			continue
		}
		if len(line) > 0 {
			line = append(line, text(", "))
		}
		line = append(line, text("%s ", fieldWords(e.Field)), code(strings.Join(texts, " ")))
	}
	if len(line) == 0 {
		return Line{text("nothing in it")}
	}
	return line
}

// edit says one field with another value.
func (d *Document) edit(p *Page, e *plandiff.Edit, at Span) {
	field := text("%s: ", fieldWords(e.Field))
	if len(e.Steps) > 0 {
		line := Line{field}
		for i, s := range e.Steps {
			if i > 0 {
				line = append(line, text(", "))
			}
			line = append(line, step(s)...)
		}
		p.detail(0, "", append(line, at)...)
		return
	}
	p.detail(0, "", append(append(Line{field}, value(e)...), at)...)
}

func step(s plandiff.Step) Line {
	switch s.Op {
	case plandiff.Came:
		return Line{Span{s.Text, New}, text(" added at %d", s.To)}
	case plandiff.Went:
		return Line{Span{s.Text, Old}, text(" taken out")}
	}
	return Line{code(s.Text), text(" moved from %d to %d", s.From, s.To)}
}

// value says an old value and a new one; a longer text piece by piece.
func value(e *plandiff.Edit) Line {
	switch {
	case len(e.Old) == 0 && len(e.New) == 0:
		return Line{text("changed")}
	case len(e.Old) == 0:
		return Line{Span{strings.Join(e.New, " "), New}, text(", was not set")}
	case len(e.New) == 0:
		return Line{text("not set any more, was "), Span{strings.Join(e.Old, " "), Old}}
	case isText(e) && len(e.Old[0])+len(e.New[0]) > 40:
		return pieces(e.Old[0], e.New[0])
	}
	return Line{Span{strings.Join(e.Old, " "), Old}, text(" -> "), Span{strings.Join(e.New, " "), New}}
}

func isText(e *plandiff.Edit) bool {
	switch e.Field {
	case "label", "note", "text", "plan", "reason", "name":
		return e.Form == plan.Scalar
	}
	return false
}

// pieces marks what left a text with [-...-] and what came with {+...+}, so that
// it can be read without colors.
func pieces(old, new string) Line {
	var line Line
	for _, piece := range plandiff.TextPieces(old, new) {
		switch piece.Op {
		case plandiff.Went:
			line = append(line, Span{"[-" + piece.Text + "-]", Old})
		case plandiff.Came:
			line = append(line, Span{"{+" + piece.Text + "+}", New})
		default:
			line = append(line, text("%s", piece.Text))
		}
	}
	return line
}

// fieldWords gives the name of a field as a person says it.
func fieldWords(name string) string {
	if words, ok := fieldNames[name]; ok {
		return words
	}
	name = strings.TrimPrefix(strings.TrimPrefix(name, "dmr."), "fm.")
	return strings.NewReplacer("_", " ", ".", " ").Replace(name)
}

var fieldNames = map[string]string{
	"fm": "FM side", "dmr": "DMR side", "fm.tone.send": "tone sent", "fm.tone.receive": "tone received",
	"dmr.slot1": "slot 1", "dmr.slot2": "slot 2", "timeout_s": "time-out in s", "site.height_m": "antenna height in m",
	"site.erp_w": "ERP in W", "input": "input", "license": "license class", "fm.access": "FM access", "dmr.access": "DMR access",
}

// reach says what a cause does to members, folded unless asked to unfold.
func (d *Document) reach(p *Page, cause *plandiff.Cause) {
	r := cause.Reach
	if n := len(r.Channels); n > 0 {
		shown := n
		if !d.Unfold {
			shown = min(n, foldedEffects)
		}
		line := Line{text("%s: ", count(n, "channel"))}
		for i, e := range r.Channels[:shown] {
			if i > 0 {
				line = append(line, text(", "))
			}
			line = append(line, effect(e)...)
		}
		if n > shown {
			line = append(line, text(" and %d more", n-shown))
		}
		p.detail(1, "reaches", line...)
	}
	if line := lists(r); len(line) > 0 {
		p.detail(1, "in", line...)
	}
	if len(r.Radios) > 0 && cause.Weight != plan.Policy {
		p.detail(1, "load again", keys(r.Radios)...)
	}
}

// effect says what happens to one channel.
func effect(e plandiff.Effect) Line {
	switch e.Op {
	case plandiff.Added:
		return Line{Span{e.Channel, New}, text(" comes")}
	case plandiff.Removed:
		return Line{Span{e.Channel, Old}, text(" goes")}
	}
	line := Line{code(e.Channel)}
	var aspects []string
	for _, a := range e.Aspects {
		aspects = append(aspects, a.Name)
	}
	if len(aspects) > 0 {
		line = append(line, text(" (%s)", strings.Join(aspects, ", ")))
	}
	return line
}

func lists(r plandiff.Reach) Line {
	var line Line
	if len(r.Zones) > 0 {
		line = append(append(line, text("%s ", plural(len(r.Zones), "zone"))), keys(r.Zones)...)
	}
	if len(r.ScanLists) > 0 {
		if len(line) > 0 {
			line = append(line, text("; "))
		}
		line = append(append(line, text("%s ", plural(len(r.ScanLists), "scan list"))), keys(r.ScanLists)...)
	}
	return line
}

func plural(n int, thing string) string {
	if n == 1 {
		return thing
	}
	return thing + "s"
}

func keys(all []string) Line {
	var line Line
	for i, key := range all {
		if i > 0 {
			line = append(line, text(", "))
		}
		line = append(line, code(key))
	}
	return line
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
		p.paragraph(text("So many records of the kind %s have another key that some may show as gone and new.", k))
	}
	d.memory(p)
}

// memory shows the radios whose memory another plan fills differently.
func (d *Document) memory(p *Page) {
	t := table{head: []string{"radio", "channels before", "now", "limit"}, numbers: []bool{false, true, true, true}}
	for _, now := range d.Comparison.New.Fits {
		before, limit := "-", "-"
		for _, was := range d.Comparison.Old.Fits {
			if d.Comparison.Renames.Key(plan.KindRadio, was.Radio.Key.V) == now.Radio.Key.V {
				before = fmt.Sprint(len(was.Channels))
			}
		}
		if u := now.Uses[plan.LimitChannels]; u.Most > 0 {
			limit = fmt.Sprint(u.Most)
		}
		t.rows = append(t.rows, []Span{code(now.Radio.Key.V), text("%s", before), text("%d", len(now.Channels)), text("%s", limit)})
	}
	if len(t.rows) > 0 {
		p.table(t)
	}
}
