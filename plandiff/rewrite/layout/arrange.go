package layout

import "strings"

// Arrange gives a container these entries, in this order: its own, others, or
// both. Comments go with their entries; blank lines, and comments that a blank
// line parts from what follows, stay where they are.
func (n *Node) Arrange(entries []*Entry) {
	if n.Flow {
		n.arrangeFlow(entries)
		return
	}
	n.arrangeBlock(entries)
}

// arrangeBlock moves whole lines.
func (n *Node) arrangeBlock(entries []*Entry) {
	still := make(map[*Entry]bool, len(entries))
	for _, e := range entries {
		still[e] = true
	}
	inline := n.isInline()
	gaps := make([]string, len(n.Entries))
	own := make(map[*Entry]string, len(entries))
	for i, e := range n.Entries {
		gaps[i], own[e] = n.parted(i)
	}
	carry := ""
	for i, e := range n.Entries {
		if still[e] {
			gaps[i] = joinGaps(carry, gaps[i])
			carry = ""
			continue
		}
		carry = joinGaps(carry, gaps[i])
	}
	n.place(entries, still, gaps, own, inline)
	n.Entries = entries
	if strings.TrimSpace(carry) != "" { // blank lines part the last entry from nothing
		n.close = carry + n.close
	}
}

// place hands the gaps out, which are what stood above the entries and does not
// belong to them: each stays above the entry that it stood above, or, where that
// moved, above the one that came there.
func (n *Node) place(entries []*Entry, still map[*Entry]bool, gaps []string, own map[*Entry]string, inline bool) {
	known := make(map[*Entry]bool, len(n.Entries))
	var texts []string // of the entries that stay, in their old order
	for i, e := range n.Entries {
		known[e] = true
		if still[e] {
			texts = append(texts, gaps[i])
		}
	}
	for i, e := range entries {
		old := known[e]
		lead := own[e] + n.indent
		switch {
		case old:
			lead, texts = texts[0]+lead, texts[1:]
		case strings.Contains(e.Lead, "\n"):
			lead = e.Lead
		case i == 0 && len(texts) > 0: // what stands at the top of a file stays there
			lead, texts[0] = texts[0]+lead, ""
		}
		if inline && i == 0 { // it stands behind a hyphen
			e.Trail += strings.TrimSuffix(lead, n.indent)
			lead = ""
		}
		e.Lead = lead
	}
}

// joinGaps puts together what stood above two entries of which the first goes:
// two blank lines in a row become one.
func joinGaps(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	if strings.TrimSpace(b) == "" {
		return a
	}
	return a + b
}

// isInline reports whether the first entry stands behind something on its line.
func (n *Node) isInline() bool {
	return len(n.Entries) > 0 && !strings.HasSuffix(n.Entries[0].Lead, n.indent) && n.indent != ""
}

// parted gives what stands above the entry i, and what of it goes where it goes.
func (n *Node) parted(i int) (stays, goes string) {
	stays, goes = splitLead(n.Entries[i].Lead, n.indent)
	if n.heads(i) {
		return stays + goes, ""
	}
	return stays, goes
}

// splitLead parts what stands before an entry: the comment lines directly above it,
// in its column, go where it goes.
func splitLead(lead, indent string) (stays, goes string) {
	lines := strings.SplitAfter(lead, "\n")
	last := len(lines) - 1 // the indentation of the entry itself
	from := last
	for from > 0 && strings.HasPrefix(lines[from-1], indent+"#") {
		from--
	}
	return strings.Join(lines[:from], ""), strings.Join(lines[from:last], "")
}

// heads reports whether the comment above the entry i is a heading: the entry is
// the first of several that stand in one line each, without comments of their own.
func (n *Node) heads(i int) bool {
	if i+1 >= len(n.Entries) || n.Kind != Mapping {
		return false
	}
	e, next := n.Entries[i], n.Entries[i+1]
	oneLine := func(e *Entry) bool { return e.lines() == 1 }
	return oneLine(e) && oneLine(next) && next.Lead == n.indent
}

// arrangeFlow moves what stands between commas.
func (n *Node) arrangeFlow(entries []*Entry) {
	n.giveUpTrails(entries)
	known := make(map[*Entry]bool, len(n.Entries))
	for i, e := range n.Entries {
		known[e] = true
		if i > 0 && !contains(entries, n.Entries[i-1]) && contains(entries, e) {
			n.inheritLine(n.Entries[i-1], e)
		}
	}
	for i, e := range entries {
		switch {
		case i == 0:
			if !known[e] || n.Entries[0] != e && !strings.Contains(e.Lead, "#") {
				e.Lead = n.first
			}
		case !known[e] || n.Entries[0] == e && !strings.Contains(e.Lead, "#"):
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

func contains(entries []*Entry, e *Entry) bool {
	for _, x := range entries {
		if x == e {
			return true
		}
	}
	return false
}

// giveUpTrails leaves a comment on its line when an entry goes that shared the
// line with others: it is about all of them.
func (n *Node) giveUpTrails(entries []*Entry) {
	for i, e := range n.Entries {
		if e.Trail == "" || contains(entries, e) || i == 0 || strings.Contains(e.Lead, "\n") {
			continue
		}
		if before := n.Entries[i-1]; before.Trail == "" {
			before.Trail, e.Trail = e.Trail, ""
		}
	}
}

// inheritLine lets the entry behind one that goes begin the line.
func (n *Node) inheritLine(gone, next *Entry) {
	if gone.Trail == "" && strings.Contains(gone.Lead, "\n") && !strings.Contains(next.Lead, "\n") {
		next.Lead = blanksOf(gone.Lead)
	}
}

// newLine gives a line end and an indentation that stand behind a comment.
func (n *Node) newLine() string {
	if strings.Contains(n.next, "\n") {
		return n.next
	}
	return n.eol + strings.Repeat(" ", n.Col)
}

// setComma puts a comma behind an entry, or takes it away behind the last.
func (n *Node) setComma(e *Entry, last bool) {
	has := strings.Contains(e.Comma, ",")
	switch {
	case has && last && !n.lastComma:
		e.Comma = e.Comma[:strings.LastIndexByte(e.Comma, ',')]
	case !has && (!last || n.lastComma):
		e.Comma += ","
	}
}
