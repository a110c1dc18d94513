package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"github.com/rivo/uniseg"
)

// A Terminal says how text may be shown.
type Terminal struct {
	Width int  // columns; 80 where it is 0
	Color bool // whether colors may be used
}

// narrowest is the width below which wrapping would help nobody.
const narrowest = 30

// Text writes a page as text, wrapped to the width of the terminal.
func Text(w io.Writer, p *Page, t Terminal) error {
	if t.Width == 0 {
		t.Width = 80
	}
	t.Width = max(t.Width, narrowest)
	out := &textWriter{w: bufio.NewWriter(w), Terminal: t}
	var last block
	for _, b := range p.blocks {
		out.gap(last, b)
		out.block(b)
		last = b
	}
	return out.w.Flush()
}

type textWriter struct {
	w *bufio.Writer
	Terminal
}

// gap puts an empty line between parts.
func (t *textWriter) gap(last, next block) {
	if last == nil {
		return
	}
	switch n := next.(type) {
	case detail:
		return
	case item:
		switch last.(type) {
		case heading, detail, item:
			if _, after := last.(detail); !after || n.depth > 0 {
				return
			}
		}
	case fence:
	}
	t.w.WriteByte('\n')
}

func (t *textWriter) block(b block) {
	switch b := b.(type) {
	case heading:
		line := b.line
		if b.level <= 2 {
			line = bold(line)
		}
		t.wrap("", "", line)
	case paragraph:
		t.wrap("", "", b.line)
	case item:
		indent := strings.Repeat("  ", b.depth)
		t.wrap(indent, indent+"  ", b.line)
	case detail:
		indent := strings.Repeat("  ", b.depth+1)
		line := b.line
		if b.label != "" {
			line = append(Line{faint("%s: ", b.label)}, line...)
		}
		t.wrap(indent, indent+"  ", line)
	case table:
		t.table(b)
	case fence:
		for line := range strings.SplitSeq(strings.TrimRight(b.text, "\n"), "\n") {
			fmt.Fprintf(t.w, "    %s\n", Visible(line))
		}
	}
}

func bold(line Line) Line {
	strongLine := make(Line, len(line))
	for i, s := range line {
		if s.Style == Plain {
			s.Style = Strong
		}
		strongLine[i] = s
	}
	return strongLine
}

// wrap writes a line, broken at spaces so that it fits the width; the lines after
// the first begin with rest. A word that is too long stays whole: a place or a
// frequency that is cut in two helps nobody.
func (t *textWriter) wrap(first, rest string, line Line) {
	t.w.WriteString(first)
	column := len(first)
	begun := false // a word stands on this line
	for _, word := range words(line) {
		width := 0
		for _, s := range word.spans {
			width += uniseg.StringWidth(s.Text)
		}
		if begun && column+word.space+width > t.Width {
			t.w.WriteString("\n" + rest)
			column, begun = len(rest), false
		}
		if begun && word.space > 0 {
			t.w.WriteByte(' ')
			column++
		}
		for _, s := range word.spans {
			t.w.WriteString(t.paint(s))
		}
		column += width
		begun = true
	}
	t.w.WriteByte('\n')
}

// A word is spans with no space between them.
type word struct {
	space int // 1 if a space stands before it
	spans []Span
}

// words splits a line at its spaces, keeping the styles.
func words(line Line) []word {
	var all []word
	space := 0
	fresh := true
	for _, s := range line {
		for i, part := range strings.Split(Visible(s.Text), " ") {
			if i > 0 {
				space, fresh = 1, true
			}
			if part == "" {
				continue
			}
			if fresh || len(all) == 0 {
				all = append(all, word{space: space})
				space, fresh = 0, false
			}
			last := &all[len(all)-1]
			last.spans = append(last.spans, Span{part, s.Style})
		}
	}
	return all
}

// The colors of styles, as numbers of SGR (ECMA-48, 8.3.117): never the only
// sign of what something is.
var colors = map[Style]string{Strong: "1", Code: "36", Faint: "2", Old: "31", New: "32", Blocks: "1;31", Warns: "1;33", Notes: "1;34", Good: "1;32"}

func (t *textWriter) paint(s Span) string {
	if sgr := colors[s.Style]; t.Color && sgr != "" {
		return "\x1b[" + sgr + "m" + s.Text + "\x1b[0m"
	}
	return s.Text
}

// table writes columns as wide as their widest cell; the last one takes what is left.
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
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			shown := Visible(cell.Text)
			pad := strings.Repeat(" ", widths[i]-uniseg.StringWidth(shown))
			if b.numbers[i] {
				line.WriteString(pad)
			}
			line.WriteString(t.paint(Span{shown, cell.Style}))
			if i < len(row)-1 {
				if !b.numbers[i] {
					line.WriteString(pad)
				}
				line.WriteString("  ")
			}
		}
		t.w.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
}
