package report

import (
	"cmp"
	"fmt"
	"net/url"
	"path"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
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
		return o.linked(inMarkdown(p.shortened(longestText/4)), f.At)
	}
	if len(f.Also) > mostRelated {
		more := review.Related{Text: "and " + count(len(f.Also)-mostRelated, "more place")}
		f.Also = append(slices.Clone(f.Also[:mostRelated]), more)
	}
	d.findings(p, []review.Finding{f})
	return o.linked(inMarkdown(p.shortened(longestText)), f.At)
}

// linked makes a link of the place that an entry begins with, to the line of the file.
func (o *Overview) linked(entry string, at plan.Place) string {
	if o.Files == "" || at.File == "" {
		return entry
	}
	address := o.Files
	for part := range strings.SplitSeq(path.Join(o.Document.folder(), at.File), "/") {
		address += "/" + url.PathEscape(part)
	}
	if at.Line > 0 {
		address += fmt.Sprintf("#L%d", at.Line)
	}
	shown := codeSpan(Visible(o.Document.place(at)))
	return strings.Replace(entry, shown, "["+shown+"]("+address+")", 1)
}
