package page

import (
	"passband.example/plandiff/plan"
	h "passband.example/review/markup"
)

func (c *chart) html() *h.Node {
	return section("map", "Map of the repeaters",
		c.picture(),
		c.places(),
		c.conflicts(),
		h.If(c.Without > 0, h.El("p", h.Class("more"), h.Text(count(c.Without, "repeater")+" without a place "+is(c.Without)+" not on the map: "), keys(c.Placeless, c.Without), h.Text("."))))
}

// picture is the map with what explains it.
func (c *chart) picture() *h.Node {
	if c.Drawing == nil {
		return nil
	}
	d, what := c.Drawing, "Thin lines lead to the nearest neighbor, with its distance. A cell with a broken outline is all that a locator says of a place."
	if d.Many {
		what = "Each disk stands for the repeaters around it."
	}
	return h.Group(
		lead(h.Text(what+" Terrain is not on it, and no coverage.")),
		h.If(len(c.Conflicts) > 0, c.linkKey()),
		h.If(c.Compared && !d.Many, key("Signs on the map", sign{"came", "+", "new"}.html(), sign{"went", "−", "gone"}.html(), sign{"changed", "◎", "changed on the air, or moved"}.html())),
		h.El("figure", h.Class("map"),
			scrolled("Map of the repeaters", d.html()),
			h.El("figcaption", h.Class("faint"), h.Text("Projection: "+d.Projection+"."))),
	)
}

func (c *chart) linkKey() *h.Node {
	link := func(class, words string) *h.Node { return sample(30, 14, path("link "+class, "M0 7H30"), words) }
	return key("Lines on the map",
		link("co", "one channel, too near"),
		link("adjacent", "neighboring channels"),
		link("crossed", "crossed pair"),
		h.If(c.Accepted(), link("accepted", "a coordinator remarked on the pair")),
		sample(14, 14, rect("neighbor", 3, 3, 8, 8), "neighbor; a line that leaves the picture leads to one beyond it"))
}

// places is the map as a table.
func (c *chart) places() *h.Node {
	if len(c.Stations) == 0 {
		return lead(h.Text("No repeater has a place: write "), h.El("code", h.Text("site: {lat: 40.1, lon: -104.2}")), h.Text(", or a "), h.El("code", h.Text("grid")), h.Text(", to see them on a map."))
	}
	return fold(h.Text("The map as a table"),
		scrolled("Repeaters, their places and neighbors", h.El("table",
			h.El("caption", h.Text("Repeaters, their places and nearest neighbors")),
			heads("repeater", "#output MHz", "place", "nearest", "#distance", "direction", where(c.Compared, "change")),
			h.El("tbody", h.Each(c.Listed, func(st *station) *h.Node { return st.html(c.Compared) })))),
		leftOutHere(c.More, "repeater", "", h.Text("; "), h.El("code", h.Text("passband show REPEATER")), h.Text(" prints one")))
}

func (st *station) html(compared bool) *h.Node {
	near := ""
	if st.Near != nil {
		near = st.Near.Label
	}
	return h.El("tr",
		headCell(shown(st.Label), h.Text(" "), h.El("code", shown(st.Key))),
		numCell(h.Text(st.Output)), h.El("td", h.Text(st.Where)), h.El("td", shown(near)), numCell(h.Text(st.Distance)), h.El("td", h.Text(st.Bearing)),
		h.If(compared, h.El("td", h.Text(st.Change()))))
}

// conflicts are the lines on the map as a table.
func (c *chart) conflicts() *h.Node {
	if len(c.Conflicts) == 0 {
		return nil
	}
	return h.Group(
		h.El("h3", h.Text("Stations nearer than is asked")),
		lead(h.Text("By the separation table of the region, without terrain; for asking the frequency coordinator, who has the last word.")),
		scrolled("Stations nearer than is asked", h.El("table",
			h.El("caption", h.Text("Pairs of stations, the gravest first")),
			heads("repeater", "other", "kind", "distance", "what"),
			h.El("tbody", h.Each(c.Conflicts, conflict.html)))),
		leftOutHere(c.MoreConflicts, "pair", ""),
	)
}

func (c conflict) html() *h.Node {
	return h.El("tr",
		headCell(shown(c.Ours.Name)), h.El("td", shown(c.Other)), h.El("td", said(c.Kind)), h.El("td", h.Text(c.Short)),
		h.El("td", shown(c.Text()), h.Each(c.Remarks, remark)))
}

// remark is what a coordinator said of a pair.
func remark(r *plan.Coordination) *h.Node {
	on := ""
	if r.Date.IsSet() {
		on = " on " + r.Date.V.String()
	}
	return h.Group(h.Text(". The coordinator "), shown(r.By.V), h.Text(" remarked"+on+": “"), shown(r.Text.V), h.Text("”"))
}
