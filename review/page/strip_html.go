package page

import (
	"fmt"

	h "passband.example/review/markup"
)

func (st *strip) html() *h.Node {
	return h.El("svg", h.Class("strip"), viewBox(st.Width, st.Height), h.Attr("role", "img"), h.Attr("aria-labelledby", st.ID+"-t "+st.ID+"-d"),
		h.El("title", h.Attr("id", st.ID+"-t"), h.Text(fmt.Sprintf("%s, %s to %s MHz", st.Band, st.Low, st.High))),
		h.El("desc", h.Attr("id", st.ID+"-d"), h.Text(st.Says+" The table below says the same.")),
		h.Each(st.Ticks, st.tick),
		h.Each(st.Blocks, func(b block) *h.Node { return rect(b.Class, b.X, b.Y, b.W, 15, titled(b.Title)) }),
		h.Each(st.Blocks, func(b block) *h.Node {
			return h.If(b.Text != "", label("seg-text", b.TextX, b.TextY, shown(b.Text)))
		}),
		h.Each(st.Names, func(n laneName) *h.Node { return label("lane", 88, n.Y, h.Text(n.Text)) }),
		h.Each(st.Marks, func(m mark) *h.Node { return rect(m.Class, m.X, m.Y, m.W, m.H, titled(m.Title)) }),
		h.Each(st.Arrows, func(a arrow) *h.Node { return path("mixing", a.Path, titled(a.Title)) }),
		h.Each(st.Tags, func(t tag) *h.Node { return label("tag", t.X, t.Y, shown(t.Text)) }))
}

// tick is a line of the raster, with its frequency above it where it is a long one.
func (st *strip) tick(t tick) *h.Node {
	d := fmt.Sprintf("M%s 18V%d", t.X, st.Bottom)
	if t.Text == "" {
		return path("grid small", d)
	}
	return h.Group(path("grid", d), label("axis", t.X, 13, h.Text(t.Text)))
}
