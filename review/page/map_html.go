package page

import (
	"fmt"

	h "passband.example/review/markup"
)

func (d *drawing) html() *h.Node {
	return h.El("svg", h.Class("chart"), viewBox(d.Width, d.Height), h.Attr("role", "img"), h.Attr("aria-labelledby", "map-t map-d"),
		h.El("title", h.Attr("id", "map-t"), h.Text("Map of the repeaters")),
		h.El("desc", h.Attr("id", "map-d"), h.Text(d.Says+" Projection: "+d.Projection+". The table below gives each place, and its nearest neighbor.")),
		rect("sea", 0, 0, d.Width, d.Height),
		h.Each(d.Lines, line.html),
		h.Each(d.Cells, func(o outline) *h.Node {
			return h.El("polygon", h.Class("locator"), attr("points", o.Points), titled(o.Title))
		}),
		h.Each(d.Ways, func(w way) *h.Node { return w.html("way") }),
		h.Each(d.Links, func(w way) *h.Node { return w.html("link") }),
		h.Each(d.Neighbors, func(n dot) *h.Node { return rect("neighbor", n.X, n.Y, 8, 8, titled(n.Title)) }),
		h.Each(d.Dots, dot.html),
		h.Each(d.Ways, func(w way) *h.Node { return h.If(w.Text != "", label("length", w.X, w.Y, h.Text(w.Text))) }),
		h.Each(d.Names, func(n name) *h.Node { return label("place", n.X, n.Y, attr("text-anchor", n.Anchor), shown(n.Text)) }),
		d.Scale.html())
}

func (l line) html() *h.Node {
	return h.Group(path("graticule", l.Path), h.If(l.X != "", label("degrees", l.X, l.Y, h.Text(l.Text))))
}

func (w way) html(kind string) *h.Node {
	return path(kind+" "+w.Class, fmt.Sprintf("M%s %sL%s %s", w.X1, w.Y1, w.X2, w.Y2), titled(w.Title))
}

func (d dot) html() *h.Node {
	class := "dot " + d.State
	if d.Locator {
		class += " vague"
	}
	return h.Group(
		h.If(d.State != "", h.El("circle", h.Class("halo "+d.State), attr("cx", d.X), attr("cy", d.Y), attr("r", 10))),
		h.El("circle", h.Class(class), attr("cx", d.X), attr("cy", d.Y), attr("r", d.R), titled(d.Title)),
		h.If(d.Text != "", label("many", d.X, d.TextY, h.Text(d.Text))),
	)
}

func (s scale) html() *h.Node {
	return h.Group(path("scale", fmt.Sprintf("M%s %sh%s", s.X, s.Y, s.W)), label("scale-text", s.TextX, s.TextY, h.Text(s.Text)))
}
