package report

import (
	"cmp"
	"fmt"
	"slices"

	"passband.example/review"
)

// findings lists what is new, worst first, and what the change has mended. What has
// a comment on its line is named only.
func (o *Overview) findings() *section {
	s := &section{before: "\n### What is found\n\n", what: "findings are"}
	fs := o.Document.Verdict.Findings
	order := make([]int, len(fs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(fs[b].Severity, fs[a].Severity) })
	still := 0
	for _, i := range order {
		if fs[i].Standing == review.Still {
			still++
			continue
		}
		s.pieces = append(s.pieces, o.finding(fs[i], o.OnLine[o.Keys[i]]))
	}
	for _, f := range o.Document.Verdict.Gone {
		p := new(Page)
		p.item(0, Span{"mended", Good}, faint(" [%s]", f.Rule), text(": %s", f.What))
		s.pieces = append(s.pieces, inMarkdown(p.shortened(longestText)))
	}
	p := new(Page)
	if n := len(o.Document.Verdict.Gone); n > 0 {
		p.paragraph(text("Thank you for mending %s.", count(n, "finding")))
	}
	if still > 0 {
		p.paragraph(text("%s stood before this change and %s not held against it.", count(still, "finding"), isAre(still)))
	}
	if len(p.blocks) > 0 {
		s.after = "\n" + inMarkdown(p)
		if len(s.pieces) == 0 {
			s.before, s.pieces = "\n### What is found\n", []string{""}
		}
	}
	return s
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func (o *Overview) finding(f review.Finding, onLine bool) string {
	d, p := o.Document, new(Page)
	if onLine {
		p.item(0, severity(f.Severity), faint(" [%s]", f.Rule), text(" at "), code(d.place(f.At)), text(": %s", f.What))
		return inMarkdown(p.shortened(longestText / 4))
	}
	if len(f.Also) > mostRelated {
		more := review.Related{Text: fmt.Sprintf("and %d more places", len(f.Also)-mostRelated)}
		f.Also = append(slices.Clone(f.Also[:mostRelated]), more)
	}
	d.findings(p, []review.Finding{f})
	return inMarkdown(p.shortened(longestText))
}
