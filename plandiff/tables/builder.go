package tables

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
)

// A builder makes a plan of another one and what tables say.
type builder struct {
	layout   *Layout
	radio    string
	old      *view
	draft    *draft
	sheets   []*sheet
	problems []Problem
	notices  []string

	claims  map[claimed]*claim
	order   []claimed
	channel []*channelRow
	taken   map[plan.Record]bool // records that a row is about
	groups  map[string][]string  // their keys, by number and label
	checks  []check
	pairs   map[string][]*plan.Repeater // repeaters by output and input
	paths   map[string]*channelRow      // the first row of each talk path
	moved   map[string]string           // talk paths that are other ones now
	stale   tally

	scans      map[string][]string // scan lists by label
	heir       map[string]int
	byRepeater map[string][]*plan.Channel
	heardBy    map[string]*entry // rows of listening lists, by label
	zoneBy     map[string][]plan.Thing
	newLists   map[string]string // receive lists that they became, by label

	labels map[string][]string // the names of channels by label, once they are made
	made   *view               // the plan with the channels of the tables, as the radio holds it
	whole  *view               // and all of it
	lists  []members
}

func (b *builder) note(format string, args ...any) {
	b.notices = append(b.notices, fmt.Sprintf(format, args...))
}

// about notes what is wrong with a file as a whole.
func (b *builder) about(s *sheet, what, fix string) {
	b.tell(Problem{File: s.file, What: what, Fix: fix})
}

// problem notes what is wrong with a row, in the column i of its table or, where that
// is -1, as a whole.
func (b *builder) problem(r *row, i int, what, fix string) {
	r.bad = true
	p := Problem{File: r.sheet.file, Row: r.n, What: what, Fix: fix}
	if i >= 0 {
		p.Header = r.sheet.table.Columns[i].Header
		if r.sheet.cols != nil {
			p.Column = r.sheet.cols[i] + 1
		}
	}
	b.tell(p)
}

func (b *builder) tell(p Problem) {
	switch n := len(b.problems); {
	case n < MaxProblems:
		b.problems = append(b.problems, p)
	case n == MaxProblems:
		b.problems = append(b.problems, Problem{File: p.File, Row: p.Row, What: fmt.Sprintf("there are more than %d problems, and the rest is not told", MaxProblems), Fix: "mend those above first: most of them have likely one cause"})
	}
}

// set gives a field of a record a value, and notes where it does not take it.
func (b *builder) set(t plan.Thing, field string, texts []string, r *row, i int) {
	record, ok := b.draft.edit(t)
	if !ok {
		return
	}
	section := plan.SectionOf(t.Kind)
	if err := section.Field(field).Set(record, texts); err != nil {
		what, fix := parted(err)
		b.problem(r, i, what, fix)
	}
	block, _, _ := strings.Cut(field, ".")
	if flag := section.Field(block); flag != nil && flag.Form == plan.Flag && len(texts) > 0 && len(flag.Items(record)) == 0 {
		_ = flag.Set(record, []string{"yes"}) // what stands in a block says that it is there
	}
}

// A claimed field is one that several rows speak of.
type claimed struct {
	thing plan.Thing
	field string
}

// A claim is what a row says of a field.
type claim struct {
	text    string
	row     *row
	column  int
	differs bool // from what the plan says
}

// claim notes what a row says of a field of a record that others may speak of too. Rows
// of one table must agree; a table that repeats what the plan says gives way to one that
// changes it.
func (b *builder) claim(t plan.Thing, field, text string, r *row, i int, differs bool) {
	k := claimed{t, field}
	c, ok := b.claims[k]
	switch {
	case !ok:
		b.claims[k] = &claim{text, r, i, differs}
		b.order = append(b.order, k)
	case c.text == text:
		c.differs = c.differs || differs
	case c.row.sheet != r.sheet && !differs:
	case c.row.sheet != r.sheet && !c.differs:
		*c = claim{text, r, i, differs}
	default:
		b.problem(r, i, fmt.Sprintf("it says %s for the %s of the %s, and row %d of %s says %s", saying(text), field, t, c.row.n, c.row.sheet.file, saying(c.text)), "change all rows that show it, or none")
	}
}

func saying(text string) string {
	if text == "" {
		return "nothing"
	}
	return fmt.Sprintf("%q", clip(text))
}

// settle gives the claimed fields their values.
func (b *builder) settle() {
	for _, k := range b.order {
		c := b.claims[k]
		if k.field == "input" || !c.differs {
			continue
		}
		if r, ok := b.draft.find(k.thing); ok && first(plan.SectionOf(k.thing.Kind).Field(k.field).Texts(r, nil)) != c.text {
			b.set(k.thing, k.field, texts(c.text), c.row, c.column)
		}
	}
	for _, k := range b.order { // once the outputs stand
		if k.field != "input" {
			continue
		}
		c := b.claims[k]
		if r, ok := b.draft.find(k.thing); ok && first(mhz(r.(*plan.Repeater).TransmitOn())) != c.text {
			b.set(k.thing, "split", nil, c.row, c.column)
			b.set(k.thing, "input", texts(c.text), c.row, c.column)
		}
	}
}

// A check is a cell that must read the same in the plan that was made.
type check struct {
	row     *row
	column  int
	thing   plan.Thing  // the record that it is about
	channel *channelRow // or the channel
}
