package report

import (
	"strings"

	"passband.example/plandiff/plan"
)

// Radios reports how full the memory of each class of radio is.
func Radios(d *Document) *Page {
	p := new(Page)
	d.title(p, "Radios")
	if len(d.Expansion.Fits) == 0 {
		p.paragraph(text("The plan has no classes of radio: write them in the section "), code("radios"), text("."))
	}
	for _, f := range d.Expansion.Fits {
		radio(p, f)
	}
	return p
}

func radio(p *Page, f *plan.Fit) {
	p.heading(2, text("%s", calledAs(f.Radio.Thing(), f.Radio.Called())))
	t := table{head: []string{"memory", "used", "limit", "full", "most in"}, numbers: []bool{false, true, true, true, false}}
	for _, u := range f.Uses {
		limit, full := text("-"), Span{}
		switch {
		case u.Most > 0 && u.Used > u.Most:
			limit, full = text("%d", u.Most), Span{"over", Blocks}
		case u.Most > 0:
			limit, full = text("%d", u.Most), text("%d%%", 100*u.Used/u.Most)
		}
		who := ""
		if u.Who.Kind != 0 {
			who = u.Who.String()
		}
		t.rows = append(t.rows, []Span{text("%s", limitWords(u.Limit)), text("%d", u.Used), limit, full, code(who)})
	}
	p.table(t)
	leftOut(p, f)
}

func limitWords(l plan.Limit) string { return strings.ReplaceAll(l.String(), "_", " ") }

// calledAs names a thing with its label, as members know it.
func calledAs(t plan.Thing, label string) string {
	if label == "" || label == t.Key {
		return t.String()
	}
	return t.String() + " (" + label + ")"
}

// leftOut counts the channels that the radio cannot use, by reason.
func leftOut(p *Page, f *plan.Fit) {
	byWhy := make(map[string]int)
	var order []string
	for _, l := range f.LeftOut {
		if byWhy[l.Why] == 0 {
			order = append(order, l.Why)
		}
		byWhy[l.Why]++
	}
	const shown = 3
	for i, why := range order {
		if i == shown && len(order) > shown+1 {
			p.item(0, text("and %d more reasons; --json lists every channel that is left out", len(order)-shown))
			return
		}
		p.item(0, text("%s left out: %s", count(byWhy[why], "channel"), why))
	}
}
