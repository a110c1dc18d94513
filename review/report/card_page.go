package report

import (
	h "passband.example/review/markup"
)

// page is the cards as a document of HTML. What stands on a face is [Visible] already, and
// isolated from what stands around it, whichever way it is written.
func (s *Cards) page(sheets [][]*face) *h.Node {
	return h.El("html", h.Attr("lang", "en"),
		h.El("head",
			h.El("meta", h.Attr("charset", "utf-8")),
			h.Policy(cardStyle),
			h.El("meta", h.Attr("name", "viewport"), h.Attr("content", "width=device-width, initial-scale=1")),
			h.El("meta", h.Attr("name", "color-scheme"), h.Attr("content", "light")),
			h.El("title", h.Text(Visible("Cards of "+s.planName()))),
			h.Style(cardStyle)),
		h.El("body", h.Each(sheets, func(faces []*face) *h.Node {
			return h.El("section", h.Class("sheet"), h.Each(faces, func(f *face) *h.Node {
				return h.El("article", h.Class("face"), f.html())
			}))
		})))
}

// html is one side of a card, or nothing where the sheet has no more.
func (f *face) html() *h.Node {
	if f == nil {
		return nil
	}
	return h.Group(
		h.El("header", h.El("h2", isolated(f.Title)), h.El("p", h.Class("of"), isolated(f.Of))),
		h.If(f.Warning != "", h.El("p", h.Class("warning"), h.Text(f.Warning))),
		h.If(len(f.Rows) > 0, h.El("table",
			h.El("thead", h.El("tr", head("n", "No."), head("l", "Label"), head("f", "Hear, MHz"), head("f", "Send, MHz"), h.El("th", h.Attr("scope", "col"), h.Text("Opens with")))),
			h.El("tbody", h.Each(f.Rows, faceRow.html)))),
		h.If(len(f.Entries) > 0, h.El("ol", h.Each(f.Entries, faceEntry.html))),
		h.El("footer", h.Text(f.Foot), h.El("p", h.Class("from"), isolated(f.From))),
	)
}

func (r faceRow) html() *h.Node {
	return h.El("tr", h.If(r.ListensOnly(), h.Class("listen")),
		h.El("td", h.Class("n"), h.Text(r.No)), h.El("td", h.Class("l"), isolated(r.Label)),
		h.El("td", h.Class("f"), h.Text(r.Hears())), h.El("td", h.Class("f s"), h.Text(r.Sends())), h.El("td", isolated(r.Opens)))
}

func (e faceEntry) html() *h.Node {
	return h.El("li", h.If(e.Head != "", h.El("b", isolated(e.Head))), isolated(e.Text))
}

func head(class, title string) *h.Node {
	return h.El("th", h.Class(class), h.Attr("scope", "col"), h.Text(title))
}

// isolated is a text whose direction does not reach what stands beside it.
func isolated(s string) *h.Node { return h.El("bdi", h.Text(s)) }
