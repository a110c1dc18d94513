package report

import (
	"strings"

	"github.com/rivo/uniseg"
)

// wrap writes a line, broken at spaces so that it fits the width; the lines after
// the first begin with rest. A word that is too long stays whole: a place or a
// frequency that is cut in two helps nobody.
func (t *textWriter) wrap(first, rest string, line Line) {
	t.w.WriteString(first)
	column := len(first)
	begun := false // a word stands on this line
	for _, word := range words(line) {
		width := word.width()
		if begun && word.spaced && column+1+width > t.Width {
			t.w.WriteString("\n" + rest)
			column, begun = len(rest), false
		}
		if begun && word.spaced {
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
	spaced bool // a space stands before it
	spans  []Span
}

func (w word) width() int {
	all := ""
	for _, s := range w.spans {
		all += s.Text
	}
	if strings.IndexFunc(all, func(r rune) bool { return r < ' ' || '~' < r }) < 0 {
		return len(all) // most are, and a log has many
	}
	return uniseg.StringWidth(all)
}

// words splits a line at its spaces, keeping the styles.
func words(line Line) []word {
	texts, parts := make([]string, len(line)), 0
	for i, s := range line {
		texts[i] = Visible(s.Text)
		parts += 1 + strings.Count(texts[i], " ")
	}
	all, spans := make([]word, 0, parts), make([]Span, 0, parts)
	spaced := false
	for i, s := range line {
		first := true
		for part := range strings.SplitSeq(texts[i], " ") {
			spaced = spaced || !first
			first = false
			if part == "" {
				continue
			}
			if spaced || len(all) == 0 {
				all = append(all, word{spaced: spaced, spans: spans[len(spans):]})
				spaced = false
			}
			spans = append(spans, Span{part, s.Style})
			last := &all[len(all)-1]
			last.spans = last.spans[:len(last.spans)+1]
		}
	}
	return all
}
