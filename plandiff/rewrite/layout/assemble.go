package layout

import "strings"

// Assemble gives a container entries that come from several texts of the same
// style, in this order, with what stands before each of them. It only mends what
// the new order makes necessary: commas, and the first entry's place.
func (n *Node) Assemble(entries []*Entry) {
	first := n.firstLead()
	inline := len(n.Entries) > 0 && !n.Flow && first == ""
	if n.Flow {
		n.adopt(entries)
		return
	}
	for i, e := range entries {
		switch {
		case inline && i == 0:
			e.Trail += strings.TrimSuffix(e.Lead, n.indent)
			e.Lead = ""
		case !strings.HasSuffix(e.Lead, n.indent):
			e.Lead += n.indent
		}
	}
	n.Entries = entries
}

func (n *Node) firstLead() string {
	if len(n.Entries) == 0 {
		return ""
	}
	return n.Entries[0].Lead
}

// adopt arranges entries between brackets that bring their own leads along.
func (n *Node) adopt(entries []*Entry) {
	for i, e := range entries {
		switch {
		case i == 0 && len(n.Entries) > 0 && n.Entries[0] != e && !strings.Contains(e.Lead, "#"):
			e.Lead = n.first
		case i > 0 && !strings.Contains(e.Lead, "#") && (strings.TrimSpace(e.Lead) == "" && e.Lead == n.first || e.Lead == ""):
			e.Lead = n.next
		}
		n.setComma(e, i == len(entries)-1)
		if i > 0 && strings.Contains(entries[i-1].Trail, "#") && !strings.Contains(e.Lead, "\n") {
			e.Lead = n.newLine() + strings.TrimLeft(e.Lead, " \t")
		}
	}
	n.Entries = entries
	n.closeLine()
}

// closeLine puts the closing bracket on a line of its own behind a comment.
func (n *Node) closeLine() {
	if len(n.Entries) == 0 {
		n.close = n.close[len(n.close)-1:]
		return
	}
	if strings.Contains(n.Entries[len(n.Entries)-1].Trail, "#") && !strings.Contains(n.close, "\n") {
		n.close = n.newLine() + strings.TrimLeft(n.close, " \t")
	}
}

// SameStyle reports whether the entries of two containers can stand in either.
func (n *Node) SameStyle(o *Node) bool {
	return n.Kind == o.Kind && n.Flow == o.Flow && n.indent == o.indent && !n.Locked && !o.Locked
}

// CutHead takes away what stands at the top of the text and belongs to no entry:
// marks, and comments that a blank line parts from the first key.
func (d *Doc) CutHead() string {
	if d.Root == nil || d.Root.Flow || len(d.Root.Entries) == 0 {
		return ""
	}
	e := d.Root.Entries[0]
	stays, goes := splitLead(e.Lead, d.Root.indent)
	e.Lead = goes + d.Root.indent
	return stays
}

// PutHead puts it back.
func (d *Doc) PutHead(head string) {
	if d.Root != nil && len(d.Root.Entries) > 0 {
		d.Root.Entries[0].Lead = head + d.Root.Entries[0].Lead
		return
	}
	d.Tail = head + d.Tail
}

// Close gives what stands between the last entry and the end of a container.
func (n *Node) Close() string { return n.close }

// SetClose changes it.
func (n *Node) SetClose(text string) { n.close = text }
