package report

import (
	"fmt"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// mostOpen is how many records are shown without being asked for.
const mostOpen = 12

// changes lists what somebody edited and what that does to members.
func (o *Overview) changes() *section {
	c := o.Document.Comparison
	s := &section{what: "changed records are"}
	switch {
	case o.Partial || c == nil:
		return s
	case c.Empty():
		s.pieces = []string{"\nNothing changes for members: the two plans mean the same.\n"}
		return s
	}
	for _, page := range o.Document.causePages() {
		s.pieces = append(s.pieces, inMarkdown(page.shortened(longestText)))
	}
	open := ""
	if len(s.pieces) <= mostOpen {
		open = " open"
	}
	s.before = fmt.Sprintf("\n### What changes for members\n\n<details%s><summary>%s to %s</summary>\n\n", open, count(len(c.Changes), "change"), count(len(c.Causes), "record"))
	s.after = "\n</details>\n"
	p := new(Page)
	for _, k := range c.Capped {
		p.paragraph(text("More records of the kind %s came and went than passband pairs up, so that one with a new key may show as gone and new.", k))
	}
	s.after += inMarkdown(p)
	return s
}

// causePages gives each edited record a page, and the operators one together.
func (d *Document) causePages() []*Page {
	var pages []*Page
	var people []*plandiff.Cause
	for i := range d.Comparison.Causes {
		cause := &d.Comparison.Causes[i]
		if cause.Thing.Kind == plan.KindOperator {
			people = append(people, cause)
			continue
		}
		page := new(Page)
		d.cause(page, cause)
		pages = append(pages, page)
	}
	if len(people) > 0 {
		page := new(Page)
		d.people(page, people)
		pages = append(pages, page)
	}
	return pages
}

// memory shows what each class of radio holds before and after, as far as it
// changed or is over its limit.
func (o *Overview) memory() *section {
	s := &section{what: "rows of the memory of radios are"}
	c := o.Document.Comparison
	if o.Partial || c == nil {
		return s
	}
	head := new(Page)
	head.table(table{head: memoryHead(), numbers: []bool{false, false, true, true, true}})
	s.before = "\n### Memory of each class of radio\n\n" + inMarkdown(head)
	for _, now := range c.New.Fits {
		for _, u := range now.Uses {
			if row, tell := memoryRow(c, now, u); tell {
				s.pieces = append(s.pieces, row)
			}
		}
	}
	return s
}

func memoryHead() []string { return []string{"radio", "memory", "before", "now", "limit"} }

// memoryRow gives a row, and whether it is worth telling: the number of channels
// always is.
func memoryRow(c *plandiff.Comparison, now *plan.Fit, u plan.Use) (row string, tell bool) {
	before, known := usedBefore(c, now.Radio.Key.V, u.Limit)
	was, limit, used := "-", "-", text("%d", u.Used)
	if known {
		was = fmt.Sprint(before)
	}
	if u.Most > 0 {
		limit = fmt.Sprint(u.Most)
	}
	over := u.Most > 0 && u.Used > u.Most
	if over {
		used = Span{fmt.Sprintf("%d, too many", u.Used), Blocks}
	}
	cells := []Span{code(clip(now.Radio.Key.V, 100)), text("%s", limitWords(u.Limit)), text("%s", was), used, text("%s", limit)}
	row = "|"
	for _, cell := range cells {
		row += " " + markdownCell(cell) + " |"
	}
	return row + "\n", over || u.Limit == plan.LimitChannels || !known || before != u.Used
}

// usedBefore tells what the radio used before the change; false for a new radio.
func usedBefore(c *plandiff.Comparison, key string, limit plan.Limit) (int, bool) {
	for _, was := range c.Old.Fits {
		if c.Renames.Key(plan.KindRadio, was.Radio.Key.V) != key {
			continue
		}
		for _, u := range was.Uses {
			if u.Limit == limit {
				return u.Used, true
			}
		}
	}
	return 0, false
}
