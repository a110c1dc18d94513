package page

import h "passband.example/review/markup"

// key is what explains the forms or signs of a picture.
func key(label string, entries ...*h.Node) *h.Node {
	return h.El("ul", h.Class("key"), h.Attr("aria-label", label), h.Group(entries...))
}

// A sign marks what came, went or differs.
type sign struct{ State, Mark, Words string }

func (s sign) html() *h.Node {
	return h.El("li", span("cell "+s.State, h.Text(s.Mark)), h.Text(" "+s.Words))
}

// sample explains a form by a small picture of it.
func sample(width, height int, form *h.Node, words string) *h.Node {
	return h.El("li", h.El("svg", viewBox(width, height), attr("width", width), attr("height", height), h.Attr("aria-hidden", "true"), form), h.Text(" "+words))
}
