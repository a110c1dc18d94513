package merge

import (
	"maps"
	"slices"
	"strings"

	"github.com/sergi/go-diff/diffmatchpatch"
)

// mark puts the lines of both sides between marks, where the merge that prefers
// ours and the one that prefers theirs differ.
func (r *Result) mark(theirs Files, labels Labels) {
	names := make(map[string]bool)
	for _, files := range []Files{r.Files, theirs} {
		for name := range files {
			names[name] = true
		}
	}
	for _, name := range slices.Sorted(maps.Keys(names)) {
		ours, other := string(r.Files[name]), string(theirs[name])
		if ours == other {
			continue
		}
		r.Files[name] = []byte(labels.between(ours, other))
		r.Marked = append(r.Marked, name)
	}
}

// between gives the lines that two texts share, and those that differ in the form
// of git: see "How conflicts are presented" in git-merge(1).
func (l Labels) between(ours, theirs string) string {
	var b strings.Builder
	var mine, other string
	flush := func() {
		if mine+other == "" {
			return
		}
		eol := "\n"
		if strings.Contains(mine+other, "\r\n") {
			eol = "\r\n"
		}
		b.WriteString(l.line("<", l.Ours, "ours") + eol)
		b.WriteString(ended(mine, eol))
		b.WriteString(l.line("=", "", "") + eol)
		b.WriteString(ended(other, eol))
		b.WriteString(l.line(">", l.Theirs, "theirs") + eol)
		mine, other = "", ""
	}
	dmp := diffmatchpatch.New()
	dmp.DiffTimeout = 0 // the same answer on every machine
	x, y, lines := dmp.DiffLinesToRunes(ours, theirs)
	for _, d := range dmp.DiffCharsToLines(dmp.DiffMainRunes(x, y, false), lines) {
		switch d.Type {
		case diffmatchpatch.DiffDelete:
			mine += d.Text
		case diffmatchpatch.DiffInsert:
			other += d.Text
		default:
			flush()
			b.WriteString(d.Text)
		}
	}
	flush()
	return b.String()
}

func ended(text, eol string) string {
	if text == "" || strings.HasSuffix(text, "\n") {
		return text
	}
	return text + eol
}

func (l Labels) line(sign, label, otherwise string) string {
	n := l.Marker
	if n <= 0 {
		n = 7
	}
	if label == "" {
		label = otherwise
	}
	return strings.TrimRight(strings.Repeat(sign, n)+" "+label, " ")
}
