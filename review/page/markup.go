package page

import (
	"fmt"
	"strings"

	h "passband.example/review/markup"
	"passband.example/review/report"
)

// shown is a text from a plan or about one. What cannot be seen in it is shown as its code point.
func shown(s string) *h.Node { return h.Text(report.Visible(s)) }

// said is a number, a frequency or a word of the page's own.
func said(v any) *h.Node { return h.Text(fmt.Sprint(v)) }

// enumerated names things one after the other.
func enumerated(names []string) *h.Node {
	visible := make([]string, len(names))
	for i, name := range names {
		visible[i] = report.Visible(name)
	}
	return h.Text(strings.Join(visible, ", "))
}

// leftOutHere is a paragraph on what the page leaves out, or nothing where n is 0. With tells
// more of it, and instead where it can be seen.
func leftOutHere(n int, thing, with string, instead ...*h.Node) *h.Node {
	if n == 0 {
		return nil
	}
	return h.El("p", h.Class("more"), h.Text(count(n, thing)+" more"+with+" "+is(n)+" left out here"), h.Group(instead...), h.Text("."))
}

// keys are keys of records, of which there are n in all.
func keys(first []string, n int) *h.Node {
	var all []*h.Node
	for i, k := range first {
		if i > 0 {
			all = append(all, h.Text(", "))
		}
		all = append(all, h.El("code", shown(k)))
	}
	return h.Group(append(all, h.If(n > len(first), h.Text(" …")))...)
}

// fold hides what a reader may want to see behind what says so.
func fold(summary *h.Node, inside ...*h.Node) *h.Node {
	return h.El("details", h.Class("fold"), h.El("summary", summary), h.Group(inside...))
}

// section is a part of the page that the navigation leads to.
func section(id, title string, inside ...*h.Node) *h.Node {
	return h.El("section", h.Attr("id", id), h.Attr("aria-labelledby", id+"-title"), h.El("h2", h.Attr("id", id+"-title"), h.Text(title)), h.Group(inside...))
}

// lead begins a section with what it shows.
func lead(text ...*h.Node) *h.Node { return h.El("p", h.Class("lead"), h.Group(text...)) }

// scrolled is what may be wider than the screen.
func scrolled(label string, inside ...*h.Node) *h.Node {
	return h.El("div", h.Class("scroll"), h.Attr("role", "group"), h.Attr("tabindex", "0"), h.Attr("aria-label", label), h.Group(inside...))
}

// heads are the heads of the columns of a table. One that begins with # is over numbers, and
// an empty one is left out.
func heads(titles ...string) *h.Node {
	return h.El("thead", h.El("tr", h.Each(titles, func(title string) *h.Node {
		if title == "" {
			return nil
		}
		title, number := strings.CutPrefix(title, "#")
		return h.El("th", h.Attr("scope", "col"), h.If(number, h.Class("num")), h.Text(title))
	})))
}

// where is the title of a column that stands only under a condition.
func where(stands bool, title string) string {
	if stands {
		return title
	}
	return ""
}

// headCell is the head of a row, and numCell a cell with a number.
func headCell(inside ...*h.Node) *h.Node {
	return h.El("th", h.Attr("scope", "row"), h.Group(inside...))
}
func numCell(inside ...*h.Node) *h.Node { return h.El("td", h.Class("num"), h.Group(inside...)) }

// span is a piece of text of a class, which is the page's own and never comes from a plan.
func span(class string, inside ...*h.Node) *h.Node {
	return h.El("span", h.Class(class), h.Group(inside...))
}

// nowAndWas is a number now, and what it was before where that differs.
func nowAndWas(now, was int, differs bool) *h.Node {
	return h.Group(h.If(differs, span("was", said(was), h.Text(" →")), h.Text(" ")), said(now))
}

// styled is a line of a report, each piece in its style.
func styled(l report.Line) *h.Node {
	return h.Each(l, func(s report.Span) *h.Node {
		text := shown(s.Text)
		switch s.Style {
		case report.Code:
			return h.El("code", text)
		case report.Old:
			return h.El("del", text)
		case report.New:
			return h.El("ins", text)
		case report.Strong:
			return h.El("strong", text)
		case report.Faint:
			return span("faint", text)
		case report.At:
			return span("at", text)
		case report.Blocks:
			return span("block", text)
		case report.Warns:
			return span("warn", text)
		case report.Notes:
			return span("note", text)
		case report.Good:
			return span("good", text)
		}
		return text
	})
}
