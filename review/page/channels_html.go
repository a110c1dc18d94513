package page

import (
	"fmt"

	h "passband.example/review/markup"
)

func (t *channels) html() *h.Node {
	return section("channels", "All channels",
		t.search(),
		h.El("p", h.Attr("id", "channel-status"), h.Attr("role", "status"), h.Attr("aria-live", "polite"), t.status()),
		h.El("div", h.Class("scroll"), h.Attr("role", "group"), h.Attr("tabindex", "0"), h.Attr("aria-labelledby", "channel-caption"),
			h.El("table", h.Attr("id", "channel-table"),
				h.El("caption", h.Attr("id", "channel-caption"), h.Text("Channels: what members hear and send, what opens it, and which zones hold it")),
				heads("channel", "label", "#hear MHz", "#send MHz", "mode", "tone, or code · slot · group", where(t.Compared, "change"), "zones", "radios"),
				h.El("tbody", h.Each(t.Rows, t.row)))),
		h.El("div", h.Attr("id", "pager"), h.Class("pager"), h.Attr("hidden", ""),
			h.El("button", h.Attr("type", "button"), h.Attr("id", "pager-back"), h.Text("Back")), h.Text(" "),
			h.El("button", h.Attr("type", "button"), h.Attr("id", "pager-on"), h.Text("On"))))
}

// search is what the script filters the table by; without a script it stays hidden.
func (t *channels) search() *h.Node {
	choice := func(name, id string) *h.Node {
		return h.El("label", h.Text(name+" "), h.El("select", h.Attr("id", id), h.El("option", h.Attr("value", ""), h.Text("any"))))
	}
	return h.El("form", h.Attr("id", "search"), h.Class("search"), h.Attr("role", "search"), h.Attr("aria-label", "Search the channels"), h.Attr("hidden", ""),
		h.El("label", h.Text("Search "), h.El("input", h.Attr("type", "search"), h.Attr("id", "search-text"), h.Attr("autocomplete", "off"), h.Attr("spellcheck", "false"), h.Attr("placeholder", "a name, a frequency, a tone, a group"))),
		choice("Mode", "search-mode"),
		choice("Zone", "search-zone"),
		choice("Radio", "search-radio"),
		h.If(t.Compared, h.El("label", h.Class("tick"), h.El("input", h.Attr("type", "checkbox"), h.Attr("id", "search-changed")), h.Text(" only what changed"))),
		h.El("button", h.Attr("type", "reset"), h.Text("Clear")))
}

// status says how many channels there are, and how many of them stand in the table.
func (t *channels) status() *h.Node {
	if t.More == 0 {
		return h.Text(count(t.All, "channel") + ".")
	}
	return h.Group(
		h.Text(fmt.Sprintf("The first %d of %s. %s not in this table without a script; ", len(t.Rows), count(t.All, "channel"), more(t.More, "channel"))),
		h.El("code", h.Text("passband show NAME")), h.Text(" prints those of a zone or a repeater."),
	)
}

func (t *channels) row(r row) *h.Node {
	return h.El("tr",
		headCell(shown(r.Name)), h.El("td", shown(r.Label)), numCell(h.Text(r.Hears)), numCell(h.Text(r.Sends)), h.El("td", h.Text(r.Mode)), h.El("td", shown(r.Access)),
		h.If(t.Compared, h.El("td", shown(r.Change))),
		h.El("td", enumerated(r.Zones)), h.El("td", enumerated(r.Radios)))
}
