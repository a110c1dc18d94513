package layout

import (
	"strings"
	"unicode/utf8"
)

// flow writes a value that begins in the column at: on one line if it fits and holds
// no comment, else broken between its entries.
func flow(n *Node, at int) string {
	if !n.Flow || n.Locked {
		return strings.ReplaceAll(n.String(), "\r", "")
	}
	if n.hasComment() {
		return spread(n, at)
	}
	if text := flat(n); at+utf8.RuneCountInString(text) <= Width || len(n.Entries) == 0 {
		return text
	}
	return filled(n, at)
}

func (n *Node) brackets() (open, end string) {
	if n.Kind == Sequence {
		return "[", "]"
	}
	return "{", "}"
}

// flat writes a collection on one line.
func flat(n *Node) string {
	if !n.Flow || n.Locked {
		return strings.ReplaceAll(n.String(), "\r", "")
	}
	open, end := n.brackets()
	parts := make([]string, len(n.Entries))
	for i, e := range n.Entries {
		parts[i] = keyOf(e) + flat(e.Value)
	}
	return open + strings.Join(parts, ", ") + end
}

func keyOf(e *Entry) string {
	switch {
	case e.Key == nil:
		return ""
	case e.Value.IsEmpty():
		return e.Key.Text + ":"
	}
	return e.Key.Text + ": "
}

// filled breaks a collection where the line is full. Its entries begin behind the
// bracket.
func filled(n *Node, at int) string {
	open, end := n.brackets()
	var b strings.Builder
	b.WriteString(open)
	inner := at + 1
	column := inner
	for i, e := range n.Entries {
		text := keyOf(e) + flat(e.Value)
		if i < len(n.Entries)-1 {
			text += ","
		} else {
			text += end
		}
		switch {
		case i == 0:
		case column+1+utf8.RuneCountInString(text) > Width:
			b.WriteString("\n" + strings.Repeat(" ", inner))
			column = inner
		default:
			b.WriteString(" ")
			column++
		}
		if column+utf8.RuneCountInString(text) > Width && e.Value.Flow && !e.Value.Locked && len(e.Value.Entries) > 0 {
			tail := text[len(text)-1:]
			text = keyOf(e) + filled(e.Value, column+utf8.RuneCountInString(keyOf(e))) + tail
		}
		b.WriteString(text)
		column += utf8.RuneCountInString(text)
		if j := strings.LastIndexByte(text, '\n'); j >= 0 {
			column = utf8.RuneCountInString(text[j+1:])
		}
	}
	return b.String()
}

// spread gives each entry a line of its own, as comments need.
func spread(n *Node, at int) string {
	open, end := n.brackets()
	indent := strings.Repeat(" ", at+2)
	var b strings.Builder
	b.WriteString(open + "\n")
	for _, e := range n.Entries {
		b.WriteString(trimmedOwn(e.Lead, indent))
		b.WriteString(indent + keyOf(e) + flow(e.Value, at+2+utf8.RuneCountInString(keyOf(e))) + ",")
		all := comments(e.Sep + e.Comma + e.Trail)
		for i, c := range all {
			if i > 0 {
				b.WriteString("\n" + indent[:len(indent)-2])
			}
			b.WriteString("  " + c)
		}
		b.WriteString("\n")
	}
	for _, c := range comments(n.close) {
		b.WriteString(indent + c + "\n")
	}
	b.WriteString(strings.Repeat(" ", at) + end)
	return b.String()
}

// trimmedOwn lays out the comments above an entry between brackets.
func trimmedOwn(lead, indent string) string {
	var b strings.Builder
	for _, c := range comments(lead) {
		b.WriteString(indent + c + "\n")
	}
	return b.String()
}

func comments(text string) []string {
	var all []string
	for line := range strings.SplitSeq(text, "\n") {
		if i := strings.IndexByte(line, '#'); i >= 0 {
			all = append(all, strings.TrimRight(line[i:], " \t\r"))
		}
	}
	return all
}

// hasComment reports whether a comment stands inside the collection.
func (n *Node) hasComment() bool {
	if strings.Contains(n.close, "#") {
		return true
	}
	for _, e := range n.Entries {
		if strings.Contains(e.Lead+e.Sep+e.Comma+e.Trail, "#") || e.Value.Flow && e.Value.hasComment() {
			return true
		}
	}
	return false
}
