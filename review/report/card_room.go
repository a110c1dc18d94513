package report

import (
	"strings"
	"unicode"

	"github.com/rivo/uniseg"
)

// How much goes on a card is reckoned before it is printed, so that nothing is cut off:
// in mm, by the sizes in card.css and letters that are rather too wide than too narrow.
// A browser holds the result against what it draws: TestCards in review/page/e2e.
const (
	faceRoom     = 91.0 // of 130 mm, for rows
	warningRoom  = 12.0
	lineHeight   = 3.67 // 8 pt and three tenths
	rowGap       = 0.95
	em           = 2.82 // 8 pt
	labelWidth   = 22.0
	opensWidth   = 29.5
	entryWidth   = 89.5
	longestEntry = 400 // characters; a longer note is parted
	mostLines    = 6   // of a label on a front
)

func rowHeight(r faceRow) float64 {
	lines := max(1, lineCount(r.Label, labelWidth, true), lineCount(r.Opens, opensWidth, false))
	return float64(lines)*lineHeight + rowGap
}

func entryHeight(e faceEntry) float64 {
	return float64(lineCount(strings.TrimSpace(e.Head+" "+e.Text), entryWidth, e.Head != ""))*lineHeight + rowGap
}

// lineCount reckons how many lines a text takes in a width, as a browser breaks it: at
// blanks, and within a word that is longer than a line.
func lineCount(s string, width float64, bold bool) int {
	lines, used := 1, 0.0
	for word := range strings.FieldsSeq(s) {
		w := textWidth(word, bold)
		blank := 0.28 * em
		switch {
		case used == 0:
		case used+blank+w <= width:
			used += blank
		default:
			lines, used = lines+1, 0
		}
		for ; w > width; w -= width * 0.9 { // the last letter that does not fit leaves a gap
			lines++
		}
		used += w
	}
	return lines
}

// fitted cuts a bold text to so many lines, and shows that it did.
func fitted(s string, width float64, most int) string {
	if lineCount(s, width, true) <= most {
		return s
	}
	kept := ""
	for g := uniseg.NewGraphemes(s); g.Next(); kept += g.Str() {
		if lineCount(kept+g.Str()+"…", width, true) > most {
			break
		}
	}
	return kept + "…"
}

// textWidth reckons the width of a text in mm. The figures are those of common sans-serif
// letters, rounded up; what is drawn wide counts as a square.
func textWidth(s string, bold bool) float64 {
	width := 0.0
	for g := uniseg.NewGraphemes(s); g.Next(); {
		r := g.Runes()[0]
		switch {
		case g.Width() > 1 || len(g.Runes()) > 3:
			width += 1.2
		case strings.ContainsRune("mwMW@%\u2014", r):
			width += 0.95
		case unicode.IsUpper(r) || r > unicode.MaxLatin1:
			width += 0.75
		case strings.ContainsRune("iljt.,:;|!'()[] ", r):
			width += 0.34
		default:
			width += 0.57
		}
	}
	if bold {
		width *= 1.07
	}
	return width * em
}

// parts cuts a text at blanks into pieces of at most so many characters, where it can.
func parts(s string, most int) []string {
	var all []string
	piece, size := "", 0
	for word := range strings.FieldsSeq(s) {
		n := uniseg.GraphemeClusterCount(word)
		if size > 0 && size+1+n > most {
			all, piece, size = append(all, piece), "", 0
		}
		if size > 0 {
			piece, size = piece+" ", size+1
		}
		piece, size = piece+word, size+n
	}
	return append(all, piece)
}
