package page

import h "passband.example/review/markup"

func (z *zones) html() *h.Node {
	var inside *h.Node
	switch {
	case len(z.Differing) == 0 && len(z.Same) == 0 && z.More == 0:
		inside = h.Group(lead(h.Text("The plan has no zones.")))
	case z.Compared:
		inside = h.Group(
			lead(h.Text("What each step of the knob gives, before and after."), h.If(len(z.Differing) == 0, h.Text(" No zone differs."))),
			key("Signs in the grids", h.Each(cellSigns, sign.html)),
			h.Each(z.Differing, zone.pair),
			h.If(len(z.Same) > 0, fold(h.Text(count(len(z.Same), "zone")+" as before"), h.Each(z.Same, zone.html))),
		)
	default:
		inside = h.Group(lead(h.Text("What each step of the knob gives.")), h.Each(z.Same, zone.html))
	}
	return section("zones", "Zones", inside,
		h.If(z.More > 0, h.El("p", h.Class("more"),
			h.Text(more(z.More, "zone")+" left out here ("), keys(z.MoreKeys, z.More),
			h.Text("). Choose one in the table of all channels, or print it with "), h.El("code", h.Text("passband show ZONE")), h.Text("."))))
}

// cellSigns mark the cells that differ.
var cellSigns = []sign{{"came", "+", "came"}, {"went", "−", "went"}, {"moved", "↕", "moved"}, {"changed", "~", "behaves differently"}}

// pair is a zone before and after.
func (z zone) pair() *h.Node {
	side := func(when string, cells []cell, none string) *h.Node {
		return h.El("div", h.El("h4", h.Text(when)), grid(cells, none))
	}
	return h.El("article", h.Class("zone"),
		h.El("h3", shown(z.Label), h.Text(" "), h.El("code", shown(z.Key)), h.Text(" "), span("state", h.Text(z.Status))),
		h.If(z.Relabelled != "", h.El("p", h.Text("Its label was “"), shown(z.Relabelled), h.Text("”."))),
		h.El("div", h.Class("pair"),
			side("before", z.Before, "There was no such zone, or it was empty."),
			side("after", z.After, "It is gone, or empty.")))
}

func (z zone) html() *h.Node {
	return h.El("article", h.Class("zone"),
		h.El("h3", shown(z.Label), h.Text(" "), h.El("code", shown(z.Key))),
		grid(z.After, "Empty."))
}

// grid draws the steps of the knob, or says that there are none.
func grid(cells []cell, none string) *h.Node {
	if len(cells) == 0 {
		return h.El("p", h.Class("none"), h.Text(none))
	}
	return h.El("ol", h.Class("grid"), h.Each(cells, cell.html))
}

func (c cell) html() *h.Node {
	return h.El("li", h.Class("cell "+c.State),
		span("step", said(c.Step)),
		c.sign(),
		span("label", shown(c.Label)),
		span("tuned", shown(c.Hears), h.Text(" "+c.Mode)),
		h.If(c.Why != "", span("why", shown(c.Why))))
}

// sign marks a cell that differs.
func (c cell) sign() *h.Node {
	for _, s := range cellSigns {
		if s.State == c.State {
			return span("sign", h.Text(s.Mark), span("sr", h.Text(" "+s.Words)))
		}
	}
	return nil
}
