package page

import (
	"fmt"

	h "passband.example/review/markup"
)

// attr is an attribute of a picture, whose value is a number or a word of the page's own.
func attr(name string, v any) *h.Node { return h.Attr(name, fmt.Sprint(v)) }

func viewBox(width, height int) *h.Node {
	return attr("viewBox", fmt.Sprintf("0 0 %d %d", width, height))
}

// path draws along the commands d of SVG.
func path(class, d string, inside ...*h.Node) *h.Node {
	return h.El("path", h.Class(class), attr("d", d), h.Group(inside...))
}

func rect(class string, x, y, width, height any, inside ...*h.Node) *h.Node {
	return h.El("rect", h.Class(class), attr("x", x), attr("y", y), attr("width", width), attr("height", height), h.Group(inside...))
}

// label is a text at a point of the picture.
func label(class string, x, y any, inside ...*h.Node) *h.Node {
	return h.El("text", h.Class(class), attr("x", x), attr("y", y), h.Group(inside...))
}

// titled is what a browser shows of a form under the pointer.
func titled(title string) *h.Node { return h.El("title", shown(title)) }
