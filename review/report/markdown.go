package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// Markdown writes a page in the Markdown of forges (CommonMark with tables).
func Markdown(w io.Writer, p *Page) error {
	out := bufio.NewWriter(w)
	var last block
	for _, b := range p.blocks {
		if last != nil && !(inList(last) && inList(b)) {
			out.WriteByte('\n')
		}
		markdownBlock(out, b)
		last = b
	}
	return out.Flush()
}

func inList(b block) bool {
	switch b.(type) {
	case item, detail:
		return true
	}
	return false
}

func markdownBlock(w *bufio.Writer, b block) {
	switch b := b.(type) {
	case heading:
		fmt.Fprintf(w, "%s %s\n", strings.Repeat("#", b.level+1), markdownLine(b.line))
	case paragraph:
		fmt.Fprintf(w, "%s\n", markdownLine(b.line))
	case item:
		fmt.Fprintf(w, "%s- %s\n", strings.Repeat("  ", b.depth), markdownLine(b.line))
	case detail:
		label := ""
		if b.label != "" {
			label = "*" + escapeMarkdown(b.label) + ":* "
		}
		fmt.Fprintf(w, "%s- %s%s\n", strings.Repeat("  ", b.depth+1), label, markdownLine(b.line))
	case table:
		markdownTable(w, b)
	case fence:
		marks := strings.Repeat("`", max(3, longestRun(b.text, '`')+1))
		fmt.Fprintf(w, "%s%s\n", marks, b.language)
		for line := range strings.SplitSeq(strings.TrimRight(b.text, "\n"), "\n") {
			fmt.Fprintf(w, "%s\n", Visible(line))
		}
		fmt.Fprintf(w, "%s\n", marks)
	}
}

func markdownTable(w *bufio.Writer, b table) {
	cells := make([]string, len(b.head))
	rules := make([]string, len(b.head))
	for i, title := range b.head {
		cells[i], rules[i] = escapeMarkdown(title), "---"
		if b.numbers[i] {
			rules[i] = "---:"
		}
	}
	fmt.Fprintf(w, "| %s |\n| %s |\n", strings.Join(cells, " | "), strings.Join(rules, " | "))
	for _, row := range b.rows {
		for i, cell := range row {
			cells[i] = markdownCell(cell)
		}
		fmt.Fprintf(w, "| %s |\n", strings.Join(cells, " | "))
	}
}

// markdownCell writes a cell. A table is cut at its bars before anything else is
// read, code included, and forges differ in how a bar in code is written: there
// it is running text.
func markdownCell(s Span) string {
	if strings.ContainsAny(s.Text, `|\`) {
		s.Style = Plain
	}
	return strings.TrimSpace(markdownSpan(s))
}
