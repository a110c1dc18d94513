package page

import h "passband.example/review/markup"

func (s *glance) html() *h.Node {
	state := "is-fine"
	if s.Blocks {
		state = "is-blocked"
	}
	return h.El("section", h.Attr("id", "glance"), h.Attr("aria-labelledby", "glance-title"), h.Class("glance"),
		h.El("h2", h.Attr("id", "glance-title"), h.Text("Verdict")),
		h.El("p", h.Class("verdict "+state), shown(s.Verdict), h.Text(".")),
		h.If(s.Skipped != "", h.El("p", h.Text("The rules did not run: "), shown(s.Skipped), h.Text("."))),
		h.If(s.Unread > 0, h.El("p", said(count(s.Unread, "place")+" of the plan cannot be read, which the findings tell; the pictures show the rest."))),
		h.El("dl", h.Class("numbers"), h.Each(s.Numbers, func(n number) *h.Node {
			return h.El("div", h.El("dt", h.Text(n.What)), h.El("dd", nowAndWas(n.Now, n.Was, n.Differs())))
		})),
		h.El("p", h.Class("basis"), shown(s.Basis)))
}
