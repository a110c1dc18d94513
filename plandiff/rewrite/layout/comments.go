package layout

import "strings"

// Comments gives the comments of a text in their order, each from its # on.
func (d *Doc) Comments() []string {
	var all []string
	take := func(between string) {
		all = append(all, comments(between)...)
	}
	d.Root.between(take)
	take(d.Tail)
	return all
}

// between hands out the pieces of text that are not values.
func (n *Node) between(take func(string)) {
	if n == nil {
		return
	}
	if n.IsText() {
		header, _, _ := strings.Cut(n.Text, "\n")
		take(header)
		return
	}
	take(n.open)
	for _, e := range n.Entries {
		e.Open()
		take(e.Lead)
		take(e.Sep)
		e.Value.between(take)
		take(e.Comma)
		take(e.Trail)
	}
	take(n.close)
}
