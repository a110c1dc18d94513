package report

import (
	"strings"

	"github.com/rivo/uniseg"
)

// between stands between two columns.
const between = "  "

// table writes columns as wide as their widest cell. Where that is too wide for
// the terminal, each row becomes a line of its own that says what each cell is.
func (t *textWriter) table(b table) {
	widths := make([]int, len(b.head))
	head := make([]Span, len(b.head))
	for i, title := range b.head {
		head[i] = Span{title, Faint}
	}
	rows := append([][]Span{head}, b.rows...)
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], uniseg.StringWidth(Visible(cell.Text)))
		}
	}
	whole := len(between) * (len(widths) - 1)
	for _, w := range widths {
		whole += w
	}
	if whole > t.Width {
		t.tableAsLines(b)
		return
	}
	for _, row := range rows {
		t.row(row, widths, b.numbers)
	}
}

// row writes one row of a table, numbers to the right and words to the left.
func (t *textWriter) row(row []Span, widths []int, numbers []bool) {
	last := len(row) - 1
	for last > 0 && Visible(row[last].Text) == "" {
		last-- // no spaces at the end of a line
	}
	for i, cell := range row[:last+1] {
		shown := Visible(cell.Text)
		pad := strings.Repeat(" ", widths[i]-uniseg.StringWidth(shown))
		if numbers[i] {
			t.w.WriteString(pad)
		}
		t.w.WriteString(t.paint(Span{shown, cell.Style}))
		if i == last {
			break
		}
		if !numbers[i] {
			t.w.WriteString(pad)
		}
		t.w.WriteString(between)
	}
	t.w.WriteByte('\n')
}

// tableAsLines writes a table for a terminal that is too narrow for it.
func (t *textWriter) tableAsLines(b table) {
	for _, row := range b.rows {
		line := Line{}
		for i, cell := range row {
			if cell.Text == "" {
				continue
			}
			switch {
			case i == 0:
			case len(line) == 1:
				line = append(line, text(": "))
			case len(line) > 0:
				line = append(line, text(", "))
			}
			if i > 0 {
				line = append(line, faint("%s ", b.head[i]))
			}
			line = append(line, cell)
		}
		t.wrap("", between, line)
	}
}
