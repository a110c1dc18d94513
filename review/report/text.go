package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// A Terminal says how text may be shown.
type Terminal struct {
	Width int  // columns; 80 where it is 0
	Color bool // whether colors may be used
}

// narrowest is the width below which wrapping would help nobody.
const narrowest = 30

// Text writes a page as text, wrapped to the width of the terminal. A word that
// is wider than that stays whole.
func Text(w io.Writer, p *Page, t Terminal) error {
	if t.Width == 0 {
		t.Width = 80
	}
	t.Width = max(t.Width, narrowest)
	out := &textWriter{w: bufio.NewWriter(w), Terminal: t}
	var last block
	for _, b := range p.blocks {
		if last != nil && apart(last, b) {
			out.w.WriteByte('\n')
		}
		out.block(b)
		last = b
	}
	return out.w.Flush()
}

type textWriter struct {
	w *bufio.Writer
	Terminal
}

// apart reports whether an empty line stands between two blocks: between all
// that are not points of one list. A point with details has air around it.
func apart(last, next block) bool {
	switch n := next.(type) {
	case detail:
		return false
	case item:
		switch last.(type) {
		case item:
			return false
		case detail:
			return n.depth == 0
		}
	}
	return true
}

func (t *textWriter) block(b block) {
	switch b := b.(type) {
	case heading:
		t.wrap("", "", bold(b.line))
	case paragraph:
		t.wrap("", "", b.line)
	case item:
		indent := strings.Repeat("  ", b.depth)
		if b.marked {
			t.wrap(indent+"- ", indent+"  ", b.line)
			return
		}
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
			fmt.Fprintln(t.w, strings.TrimRight("    "+Visible(line), " "))
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

// colors gives the color of a style, as numbers of SGR (ECMA-48, 8.3.117). A
// color is never the only sign of what something is.
func colors(s Style) string {
	switch s {
	case Strong:
		return "1"
	case Code:
		return "36"
	case Faint, At:
		return "2"
	case Old:
		return "31"
	case New:
		return "32"
	case Blocks:
		return "1;31"
	case Warns:
		return "1;33"
	case Notes:
		return "1;34"
	case Good:
		return "1;32"
	}
	return ""
}

func (t *textWriter) paint(s Span) string {
	if sgr := colors(s.Style); t.Color && sgr != "" && s.Text != "" {
		return "\x1b[" + sgr + "m" + s.Text + "\x1b[0m"
	}
	return s.Text
}
