package layout

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Width is how long a line between brackets gets before it is broken.
const Width = 100

// An Order gives the place of a key among those that stand under a path of keys,
// from 0; keys of one place keep their order.
type Order func(path []string, key string) int

// Format gives the text in one layout: keys in order, blocks two blanks deeper than
// what holds them, one blank behind a colon and a comma, two before a comment, no
// more than one blank line at a time, and one before each section. One-line records
// that follow one another have their values in one column, and so have the comments
// at the ends of lines. Comments and quotes stay.
//
// The error is a ShapeError where the text has a block with an anchor.
func (d *Doc) Format(order Order) ([]byte, error) {
	if d.Root == nil || d.Root.Flow || d.Root.Kind != Mapping {
		return []byte(lines(d.Bytes())), nil
	}
	if n := d.Root.lockedBlock(); n != nil {
		return nil, &ShapeError{n.Line, "this block has an anchor (&), and is not laid out anew; write it out where it is repeated"}
	}
	f := &formatter{order: order}
	head := d.CutHead()
	f.block(d.Root, nil, "")
	text := aligned(f.out.String())
	if head = trimmed(head, ""); head != "" && text != "" {
		text = strings.TrimRight(head, "\n") + "\n\n" + strings.TrimLeft(text, "\n")
	}
	tail := trimmed(d.Root.close+d.Tail, "")
	text = strings.TrimLeft(strings.TrimRight(text, "\n")+"\n"+tail, "\n")
	return []byte(strings.TrimRight(text, "\n") + "\n"), nil
}

// lines gives a text with plain line ends and no blanks at the ends of its lines.
func lines(text []byte) string {
	return strings.TrimRight(trimmed(strings.TrimPrefix(string(text), byteOrderMark), "*"), "\n") + "\n"
}

func (n *Node) lockedBlock() *Node {
	if n.Locked && !n.Flow && n.Kind != Scalar && n.Kind != Alias {
		return n
	}
	for _, e := range n.Entries {
		if found := e.Open().Value.lockedBlock(); found != nil {
			return found
		}
	}
	return nil
}

type formatter struct {
	order Order
	out   strings.Builder
}

// trimmed lays out what stands above an entry: comments behind indent, and at most
// one blank line at a time. An indent of * lets the lines begin where they do.
func trimmed(lead, indent string) string {
	var b strings.Builder
	blank := false
	all := strings.Split(lead, "\n")
	for i, line := range all {
		line = strings.TrimRight(line, " \t\r")
		if i == len(all)-1 && line == "" {
			break
		}
		if indent != "*" {
			line = strings.TrimLeft(line, " \t")
		}
		switch {
		case line == "":
			blank = true
			continue
		case blank:
			b.WriteString("\n")
			blank = false
		}
		if indent != "*" {
			b.WriteString(indent)
		}
		b.WriteString(line + "\n")
	}
	if blank {
		b.WriteString("\n")
	}
	return b.String()
}

// block writes the entries of a block collection behind indent.
func (f *formatter) block(n *Node, path []string, indent string) {
	entries := f.sorted(n, path)
	if n.Kind == Sequence {
		f.hoist(entries, path, indent)
	}
	columns := f.columns(entries, path, indent)
	for i, e := range entries {
		lead := trimmed(e.Lead, indent)
		if i == 0 {
			lead = strings.TrimLeft(lead, "\n")
		}
		if len(path) == 0 && i > 0 && isSection(e) && !strings.HasPrefix(lead, "\n") {
			lead = "\n" + lead
		}
		f.out.WriteString(lead + indent)
		f.entry(n, e, path, indent, columns[i])
	}
	if len(path) > 0 {
		f.out.WriteString(trimmed(strings.TrimRight(n.close, " "), indent))
	}
}

// sorted gives the entries of a mapping in the order of their keys.
func (f *formatter) sorted(n *Node, path []string) []*Entry {
	entries := slices.Clone(n.Entries)
	if n.Kind != Mapping {
		return entries
	}
	ranks := make(map[*Entry]int, len(entries))
	for _, e := range entries {
		if at := f.order(path, e.Name()); at != 0 {
			ranks[e] = at
		}
	}
	before := func(a, b *Entry) int { return ranks[a] - ranks[b] }
	if !slices.IsSortedFunc(entries, before) {
		slices.SortStableFunc(entries, before)
	}
	return entries
}

// sortFlow sorts what stands between brackets, and between those inside.
func (f *formatter) sortFlow(n *Node, path []string) {
	if !n.Flow || n.Locked {
		return
	}
	n.Entries = f.sorted(n, path)
	for _, e := range n.Entries {
		f.sortFlow(e.Value, append(slices.Clone(path), e.Name()))
	}
}

// hoist puts the comments behind a hyphen, and above the first key behind it, above
// the hyphen.
func (f *formatter) hoist(entries []*Entry, path []string, indent string) {
	for _, e := range entries {
		if v := e.Value; v.Kind == Mapping && !v.Flow {
			first := f.sorted(v, append(slices.Clone(path), ""))[0]
			for _, c := range append(comments(e.Sep), comments(first.Lead)...) {
				e.Lead = strings.TrimRight(e.Lead, " ") + indent + c + "\n"
			}
			e.Sep, first.Lead = "- ", ""
		}
	}
}

func isSection(e *Entry) bool { return e.Value.Kind == Mapping || e.Value.Kind == Sequence }

// columns gives for each entry the column of its value, in the records of a section.
func (f *formatter) columns(entries []*Entry, path []string, indent string) []int {
	columns := make([]int, len(entries))
	if len(path) != 1 {
		return columns
	}
	for i := 0; i < len(entries); {
		j, widest := i, 0
		for ; j < len(entries) && isOneLine(entries[j]) && (j == i || trimmed(entries[j].Lead, "") == ""); j++ {
			if entries[j].Key != nil {
				widest = max(widest, len(indent)+utf8.RuneCountInString(entries[j].Key.Text)+2)
			}
		}
		for k := i; k < j; k++ {
			columns[k] = widest
		}
		i = max(j, i+1)
	}
	return columns
}

// isOneLine reports whether the value will stand on the line of its key.
func isOneLine(e *Entry) bool {
	v := e.Value
	if v.IsText() || strings.Contains(v.Text, "\n") {
		return false
	}
	return v.Kind == Scalar || v.Kind == Alias || v.Flow
}

// entry writes a key, or a hyphen, and its value.
func (f *formatter) entry(n *Node, e *Entry, path []string, indent string, column int) {
	begin := "- "
	below := append(slices.Clone(path), e.Name())
	inner := indent + "  "
	if n.Kind == Mapping {
		begin = e.Key.Text + ":"
		if missing := column - len(indent) - utf8.RuneCountInString(begin); missing > 0 && !e.Value.IsEmpty() {
			begin += strings.Repeat(" ", missing)
		} else if !e.Value.IsEmpty() {
			begin += " "
		}
	}
	v := e.Value
	comment := commentOf(e.Sep + e.Trail)
	switch {
	case v.IsText():
		f.out.WriteString(begin + reindented(v.Text, inner))
	case (v.Kind == Mapping || v.Kind == Sequence) && !v.Flow:
		f.nested(n, v, below, begin, comment, inner)
	default:
		f.sortFlow(v, below)
		at := utf8.RuneCountInString(indent + begin)
		f.out.WriteString(begin + flow(v, at) + comment + "\n")
	}
}

// nested writes a block below its key, or behind its hyphen.
func (f *formatter) nested(n, v *Node, below []string, begin, comment, inner string) {
	if n.Kind == Sequence {
		body := &formatter{order: f.order}
		body.block(v, below, inner)
		f.out.WriteString(begin + strings.TrimPrefix(body.out.String(), inner))
		return
	}
	f.out.WriteString(strings.TrimRight(begin, " ") + comment + "\n")
	f.block(v, below, inner)
}

// commentOf gives the comment at the end of a line.
func commentOf(text string) string {
	i := strings.IndexByte(text, '#')
	if i < 0 {
		return ""
	}
	line, _, _ := strings.Cut(text[i:], "\n")
	return aside + strings.TrimRight(line, " \t\r")
}

// aside stands for the blanks before a comment until its column is known; no plan
// holds that sign.
const aside = "\x00"

// mostAside is the length up to which a line's comment is put in one column with
// those above and below.
const mostAside = 60

// aligned puts the comments at the ends of lines that follow one another into one
// column, two blanks behind the longest.
func aligned(text string) string {
	all := strings.SplitAfter(text, "\n")
	var b strings.Builder
	for i := 0; i < len(all); {
		j, column := i, 0
		for ; j < len(all); j++ {
			said, _, ok := strings.Cut(all[j], aside)
			n := utf8.RuneCountInString(said)
			if !ok || n > mostAside {
				break
			}
			column = max(column, n)
		}
		for ; i < j; i++ {
			said, comment, _ := strings.Cut(all[i], aside)
			b.WriteString(said + strings.Repeat(" ", column-utf8.RuneCountInString(said)+2) + comment)
		}
		if i < len(all) {
			b.WriteString(strings.Replace(all[i], aside, "  ", 1))
			i++
		}
	}
	return b.String()
}

// reindented gives a text under | or > with its lines behind indent.
func reindented(text, indent string) string {
	header, rest, _ := strings.Cut(text, "\n")
	first := strings.TrimLeft(rest, " \r\n")
	before := rest[:len(rest)-len(first)]
	old := before[strings.LastIndexByte(before, '\n')+1:]
	var b strings.Builder
	b.WriteString(strings.TrimRight(header, " \t\r") + "\n")
	for line := range strings.SplitSeq(strings.TrimSuffix(rest, "\n"), "\n") {
		line = strings.TrimSuffix(line, "\r")
		if body := strings.TrimPrefix(line, old); strings.TrimLeft(line, " ") != "" {
			b.WriteString(indent + body)
		}
		b.WriteString("\n")
	}
	return b.String()
}
