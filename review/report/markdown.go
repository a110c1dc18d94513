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
		_, inList := b.(item)
		_, inDetail := b.(detail)
		if last != nil && !inList && !inDetail || isHeading(last) {
			out.WriteByte('\n')
		}
		if _, wasParagraph := last.(paragraph); wasParagraph && (inList || inDetail) {
			out.WriteByte('\n')
		}
		markdownBlock(out, b)
		last = b
	}
	return out.Flush()
}

func isHeading(b block) bool {
	_, ok := b.(heading)
	return ok
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
			label = "*" + b.label + ":* "
		}
		fmt.Fprintf(w, "%s- %s%s\n", strings.Repeat("  ", b.depth+1), label, markdownLine(b.line))
	case table:
		markdownTable(w, b)
	case fence:
		marks := strings.Repeat("`", max(3, longestRun(b.text, '`')+1))
		fmt.Fprintf(w, "%s%s\n%s\n%s\n", marks, b.language, strings.TrimRight(b.text, "\n"), marks)
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
			cells[i] = strings.ReplaceAll(markdownSpan(cell), "|", "\\|")
		}
		fmt.Fprintf(w, "| %s |\n", strings.Join(cells, " | "))
	}
}

func markdownLine(line Line) string {
	var b strings.Builder
	for _, s := range line {
		b.WriteString(markdownSpan(s))
	}
	return strings.TrimSpace(b.String())
}

func markdownSpan(s Span) string {
	shown := Visible(s.Text)
	if strings.TrimSpace(shown) == "" {
		return shown
	}
	switch s.Style {
	case Code, Old, New:
		return codeSpan(shown)
	case Strong, Blocks, Warns, Notes, Good:
		return "**" + escapeMarkdown(shown) + "**"
	}
	return escapeMarkdown(shown)
}

// codeSpan puts a text between more backticks than it holds; nothing in a code
// span is a mention, a link or HTML.
func codeSpan(s string) string {
	marks := strings.Repeat("`", longestRun(s, '`')+1)
	pad := ""
	if strings.HasPrefix(s, "`") || strings.HasSuffix(s, "`") {
		pad = " "
	}
	return marks + pad + s + pad + marks
}

func longestRun(s string, r rune) int {
	longest, run := 0, 0
	for _, c := range s {
		if c != r {
			run = 0
			continue
		}
		run++
		longest = max(longest, run)
	}
	return longest
}

// escapeMarkdown makes running text mean nothing but itself. A backslash does not
// stop a mention or a reference to an issue, nor an address that forges link on
// their own: a zero-width space within does.
func escapeMarkdown(s string) string {
	const zeroWidth = "\u200B"
	var b strings.Builder
	for _, r := range s {
		switch r {
		case '\\', '`', '*', '_', '{', '}', '[', ']', '<', '>', '|', '~', '&', '!':
			b.WriteByte('\\')
			b.WriteRune(r)
		case '@', '#':
			b.WriteRune(r)
			b.WriteString(zeroWidth)
		default:
			b.WriteRune(r)
		}
	}
	out := strings.ReplaceAll(b.String(), "://", ":"+zeroWidth+"//")
	return strings.ReplaceAll(out, "www.", "www"+zeroWidth+".")
}
