package page

import (
	"fmt"

	h "passband.example/review/markup"
	"passband.example/review/report"
)

// memory shows how full each class of radio is.
func (v *view) memory() *h.Node {
	if len(v.Radios) == 0 {
		return section("memory", "Memory of each class of radio",
			lead(h.Text("The plan has no classes of radio: write them in the section "), h.El("code", h.Text("radios")), h.Text(".")))
	}
	return section("memory", "Memory of each class of radio",
		lead(h.Text("The line across a bar is the limit that the class states."), h.If(v.Changes != nil, h.Text(" The thin bar is what it was before."))),
		h.Each(v.Radios, radio.html))
}

func (r radio) html() *h.Node {
	return h.Group(
		scrolled("Memory of "+report.Visible(r.Label), h.El("table", h.Class("memory"),
			h.El("caption", shown(r.Label), h.Text(" "), h.El("code", shown(r.Key)), h.If(r.Fresh, h.Text(" "), span("state", h.Text("new")))),
			heads("memory", "#used", "#limit", "#full", "bar", "most in"),
			h.El("tbody", h.Each(r.Uses, use.html)))),
		h.If(len(r.Left) > 0, h.El("ul", h.Class("notes"), h.Each(r.Left, func(l leftOut) *h.Node {
			return h.El("li", h.Text(count(l.Count, "channel")+" left out: "), shown(l.Why))
		}))),
	)
}

func (u use) html() *h.Node {
	limit := span("faint", h.Text("none stated"))
	if u.Most > 0 {
		limit = said(u.Most)
	}
	return h.El("tr", h.If(u.Over, h.Class("over")),
		headCell(h.Text(u.What)),
		numCell(nowAndWas(u.Now, u.Was, u.Differs())),
		numCell(limit),
		numCell(h.If(u.Over, h.El("strong", h.Text("over")), h.Text(" ")), h.Text(u.Percent)),
		h.El("td", h.If(u.Most > 0, u.bar())),
		h.El("td", h.El("code", shown(u.Who))))
}

// bar draws a count against its limit.
func (u use) bar() *h.Node {
	label, form := fmt.Sprintf("%s: %d of %d", u.What, u.Now, u.Most), "used"
	if u.Differs() {
		label += fmt.Sprintf(", before %d", u.Was)
	}
	if u.Over {
		form += " over"
	}
	return h.El("svg", h.Class("bar"), viewBox(u.Bar.Width, 16), attr("width", u.Bar.Width), attr("height", 16), h.Attr("role", "img"), h.Attr("aria-label", label),
		rect("track", 0, 3, u.Bar.Limit, 10),
		rect(form, 0, 3, u.Bar.Now, 10),
		h.If(u.Differs(), rect("before", 0, 0, u.Bar.Was, 2)),
		path("limit", fmt.Sprintf("M%d 0V16", u.Bar.Limit)))
}
