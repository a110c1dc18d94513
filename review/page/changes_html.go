package page

import (
	"passband.example/plandiff/plan"
	h "passband.example/review/markup"
	"passband.example/review/report"
)

func (c *changes) html() *h.Node {
	if c == nil {
		return nil
	}
	begin := lead(h.Text("Nothing changed: the two plans mean the same."))
	if len(c.Causes) > 0 {
		begin = lead(shown(c.Summary), h.Text(" Each record that somebody edited stands once; what it reaches is folded under it."))
	}
	return section("changes", "What changed",
		begin,
		h.Each(c.Causes, cause.html),
		h.If(c.More > 0, h.El("p", h.Class("more"), h.Text(more(c.More, "record")+" left out here; "), h.El("code", h.Text("passband diff")), h.Text(" prints all of them."))),
		h.Each(c.Capped, func(k plan.Kind) *h.Node {
			return h.El("p", h.Class("more"), h.Text("More records of the kind "), said(k), h.Text(" came and went than passband pairs up, so that one with a new key may show as gone and new."))
		}))
}

func (c cause) html() *h.Node {
	return h.El("article", h.Class("cause"),
		h.El("h3", styled(c.Line)),
		h.El("ul", h.Class("edits"), items(c.Edits)),
		h.If(len(c.Reaches) > 0, fold(h.Group(h.Text("reaches "), styled(c.Reaches)),
			h.El("ul", h.Class("effects"), items(c.Effects),
				h.If(c.More > 0, h.El("li", h.Class("more"), h.Text(count(c.More, "channel")+" more; "), h.El("code", h.Text("passband diff --effects")), h.Text(" lists them")))))),
		h.If(len(c.Notes) > 0, h.El("ul", h.Class("notes"), h.Each(c.Notes, func(d report.Detail) *h.Node {
			return h.El("li", h.If(d.Label != "", span("faint", h.Text(d.Label), h.Text(":")), h.Text(" ")), styled(d.Line))
		}))))
}

// items are lines, each as an item of a list.
func items(all []report.Line) *h.Node {
	return h.Each(all, func(l report.Line) *h.Node { return h.El("li", styled(l)) })
}
