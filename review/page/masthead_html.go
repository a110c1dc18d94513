package page

import h "passband.example/review/markup"

// masthead is the head of the page: what it shows, and of which revisions.
func (v *view) masthead() *h.Node {
	kind := "The plan as it stands"
	if v.Changes != nil {
		kind = "Review of a change"
	}
	return h.El("header", h.Class("masthead"),
		h.El("svg", h.Class("crest"), attr("viewBox", "0 0 1200 64"), attr("preserveAspectRatio", "none"), h.Attr("aria-hidden", "true"), attr("focusable", "false"),
			path("floor", "M0 56H1200"),
			path("curve", "M0 56H300C360 56 372 12 420 12H780C828 12 840 56 900 56H1200")),
		h.El("div", h.Class("wrap"),
			h.El("p", h.Class("kind"), h.Text(kind)),
			h.El("h1", shown(v.Title)),
			h.El("p", h.Class("origin"), v.origin())))
}

// origin tells where the plans come from.
func (v *view) origin() *h.Node {
	var all []*h.Node
	if old := v.Document.Old; old != nil {
		comma := ""
		if old.Note != "" {
			comma = ","
		}
		all = append(all, h.Text("From "), styled(old.Line()), h.Text(comma+" to "))
	}
	if now := v.Document.New; now != nil {
		all = append(all, styled(now.Line()))
		if now.Subject != "" {
			all = append(all, h.Text(": “"), shown(now.Subject), h.Text("”"))
		}
	}
	return h.Group(all...)
}

// navigation leads to the sections.
func (v *view) navigation() *h.Node {
	to := func(id, name string) *h.Node { return h.El("li", h.El("a", h.Attr("href", "#"+id), h.Text(name))) }
	return h.El("nav", h.Attr("aria-label", "Parts of this report"), h.El("ul",
		to("glance", "Verdict"),
		to("findings", "Findings"),
		h.If(v.Changes != nil, to("changes", "What changed")),
		to("zones", "Zones"),
		to("memory", "Memory"),
		to("spectrum", "Spectrum"),
		to("map", "Map"),
		to("channels", "All channels")))
}
