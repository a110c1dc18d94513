package report

import (
	"strings"

	"github.com/rivo/uniseg"
)

const (
	between        = "  " // stands between two columns
	narrowestCells = 12   // columns below which a cell is no longer wrapped
)

// table writes columns as wide as their widest cell. Where that is too wide for
// the terminal, the widest columns are wrapped; where that is not enough, each
// row becomes a line that says what each cell is.
func (t *textWriter) table(b table) {
	rows := [][]Span{make([]Span, len(b.head))}
	for i, title := range b.head {
		rows[0][i] = Span{title, Faint}
	}
	rows = append(rows, b.rows...)
	widths := make([]int, len(b.head))
	whole := len(between) * (len(widths) - 1)
	for i := range widths {
		for _, row := range rows {
			widths[i] = max(widths[i], uniseg.StringWidth(shownIn(row[i])))
		}
		whole += widths[i]
	}
	least := leastWidths(rows, b.numbers, widths)
	for ; whole > t.Width; whole-- {
		i := widestOf(widths, least)
		if i < 0 {
			t.tableAsLines(b)
			return
		}
		widths[i]--
	}
	for _, row := range rows {
		t.row(row, widths, b.numbers)
	}
}

// shownIn is the text of a cell without the spaces around it.
func shownIn(cell Span) string { return strings.TrimSpace(Visible(cell.Text)) }

// leastWidths gives how narrow each column may become: numbers stay as they are.
func leastWidths(rows [][]Span, numbers []bool, widths []int) []int {
	least := make([]int, len(widths))
	for i := range widths {
		least[i] = narrowestCells
		if numbers[i] {
			least[i] = widths[i]
		}
		for _, row := range rows {
			for word := range strings.FieldsSeq(shownIn(row[i])) {
				least[i] = max(least[i], uniseg.StringWidth(word))
			}
		}
	}
	return least
}

// widestOf gives the widest column that can be narrower, or -1.
func widestOf(widths, least []int) int {
	widest := -1
	for i, w := range widths {
		if w > least[i] && (widest < 0 || w > widths[widest]) {
			widest = i
		}
	}
	return widest
}

// row writes one row of a table, numbers to the right and words to the left, as
// many lines as its longest cell needs.
func (t *textWriter) row(row []Span, widths []int, numbers []bool) {
	cells := make([][]string, len(row))
	lines := 1
	for i, cell := range row {
		cells[i] = broken(shownIn(cell), widths[i])
		lines = max(lines, len(cells[i]))
	}
	for n := range lines {
		space := 0 // owed before the next cell that shows something
		for i, cell := range cells {
			shown := ""
			if n < len(cell) {
				shown = cell[n]
			}
			before, after := 0, widths[i]-uniseg.StringWidth(shown)
			if numbers[i] && shown != "" {
				before, after = after, 0
			}
			if shown != "" {
				t.w.WriteString(strings.Repeat(" ", space+before) + t.paint(Span{shown, row[i].Style}))
				space = 0
			}
			space += after + len(between)
		}
		t.w.WriteByte('\n')
	}
}

// broken splits a text at its spaces into lines of at most so many columns.
func broken(s string, width int) []string {
	var lines []string
	if uniseg.StringWidth(s) <= width {
		return []string{s}
	}
	for word := range strings.FieldsSeq(s) {
		if n := len(lines); n > 0 && uniseg.StringWidth(lines[n-1]+" "+word) <= width {
			lines[n-1] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
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
