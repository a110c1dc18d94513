package page

import h "passband.example/review/markup"

func (v *view) html() *h.Node {
	title := v.Title
	if v.Changes != nil {
		title = "Review of " + title
	}
	return h.El("html", h.Attr("lang", "en"),
		h.El("head",
			h.El("meta", h.Attr("charset", "utf-8")),
			h.Policy(style, script),
			h.El("meta", h.Attr("name", "viewport"), h.Attr("content", "width=device-width, initial-scale=1")),
			h.El("meta", h.Attr("name", "color-scheme"), h.Attr("content", "light dark")),
			h.El("meta", h.Attr("name", "referrer"), h.Attr("content", "no-referrer")),
			h.El("title", shown(title)),
			h.Style(style)),
		h.El("body",
			patterns(),
			h.El("a", h.Class("skip"), h.Attr("href", "#main"), h.Text("To the report")),
			v.masthead(),
			v.navigation(),
			h.El("main", h.Attr("id", "main"), h.Attr("tabindex", "-1"),
				v.Glance.html(),
				v.Findings.html(),
				v.Changes.html(),
				v.Zones.html(),
				v.memory(),
				v.Bands.html(),
				v.Map.html(),
				v.Channels.html()),
			h.El("footer",
				h.El("p", shown(v.Glance.Basis)),
				h.El("p", h.Text("Written by passband. The page fetches nothing and keeps nothing; what you have unfolded is what prints."))),
			h.JSON("channel-data", v.Channels.Data),
			h.Script(script)))
}

// patterns are what the forms of the pictures are filled with.
func patterns() *h.Node {
	pattern := func(id string) *h.Node {
		return h.El("pattern", h.Attr("id", id), attr("width", 6), attr("height", 6), attr("patternUnits", "userSpaceOnUse"), attr("patternTransform", "rotate(45)"), h.El("path", attr("d", "M0 0V6")))
	}
	return h.El("svg", h.Class("defs"), attr("width", 0), attr("height", 0), h.Attr("aria-hidden", "true"), attr("focusable", "false"),
		h.El("defs", pattern("hatch"), pattern("bars")))
}
