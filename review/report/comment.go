package report

import (
	"fmt"
	"regexp"
	"strings"
	"sync"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// What a comment on a line takes at most of one text and of a list: a label may
// be megabytes long, and forges refuse a comment of more than 65,536 characters.
const (
	longestText  = 1500 // bytes
	mostRelated  = 12
	longestOffer = 4000 // bytes of a suggestion
)

// A Suggestion is text that takes the place of some lines of a file.
type Suggestion struct {
	From, To int32  // the lines, counted from 1, both included
	Text     string // what stands there instead, without its last line feed
}

// Fits reports whether the text can be offered as it is: a forge puts it into the
// file byte by byte, so nothing in it may be hidden from who accepts it.
func (s *Suggestion) Fits() bool {
	return len(s.Text) <= longestOffer && Visible(strings.ReplaceAll(s.Text, "\n", "")) == strings.ReplaceAll(s.Text, "\n", "")
}

// Comment writes what a comment on a line says about a finding: what is wrong, why,
// what to do, the change itself where one is offered, and what it rests on.
func Comment(d *Document, f review.Finding, offer *Suggestion) string {
	p := new(Page)
	p.paragraph(severity(f.Severity), faint(" [%s]", f.Rule), text(": %s", f.What))
	if f.Why != "" {
		p.paragraph(text("%s", ended(sentence(f.Why))))
	}
	if f.Fix != "" {
		p.paragraph(strong("What to do:"), text(" %s", ended(f.Fix)))
	}
	said := inMarkdown(p.shortened(longestText))
	if offer != nil && offer.Fits() {
		said += "\n" + offer.fence()
	}
	p = new(Page)
	d.related(p, f.Also)
	if f.Eased != "" {
		p.paragraph(text("Milder than the rule says: %s.", f.Eased))
	}
	if f.Source != "" {
		p.paragraph(strong("Rests on:"), text(" %s", f.Source))
	}
	if rest := inMarkdown(p.shortened(longestText)); rest != "" {
		said += "\n" + rest
	}
	return said + accepting(f)
}

// fence writes the suggestion as forges read one. No text at all takes the lines out.
func (s *Suggestion) fence() string {
	marks := strings.Repeat("`", max(3, longestRun(s.Text, '`')+1))
	if s.Text == "" {
		return marks + "suggestion\n" + marks + "\n"
	}
	return marks + "suggestion\n" + s.Text + "\n" + marks + "\n"
}

// ended ends a sentence, unless it ends by itself.
func ended(s string) string {
	if strings.HasSuffix(s, "?") || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}

// related lists the other places of a finding.
func (d *Document) related(p *Page, also []review.Related) {
	for i, r := range also {
		if i == mostRelated && len(also) > mostRelated+1 {
			p.item(0, text("and %d more places", len(also)-i))
			return
		}
		line := Line{}
		if !r.At.IsZero() {
			line = Line{code(d.place(r.At)), text(": ")}
		}
		p.item(0, line.and(text("%s", r.Text))...)
	}
}

// accepting tells how a club lives with a finding, in the lines to paste.
func accepting(f review.Finding) string {
	if len(f.About) == 0 || ofLoading(f.Rule) || !plainKey().MatchString(f.About[0].Key) {
		return ""
	}
	p := new(Page)
	p.paragraph(text("In a change of its own, merged before this one, in "), code(plan.RootFile), text("; it quiets the finding, and makes nothing lawful. "), text("%s", caution))
	p.fence("yaml", fmt.Sprintf("review:\n  accept:\n    - {rule: %s, at: %s, until: YYYY-MM-DD, reason: \"who decided it, when, and on what it rests\"}", f.Rule, f.About[0].Key))
	return "\n" + foldAway("If those who answer for the plan accept this", inMarkdown(p))
}

var plainKey = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[a-z][a-z0-9/-]{0,99}$`) })

// GoneComment rewrites a comment whose finding has gone: what it said stays to be
// read, folded away. said is the text below the mark of the standing comment, which
// passband wrote itself.
func GoneComment(said, commit string) string {
	p := new(Page)
	p.paragraph(Span{"No longer found", Good}, text(" since "), code(commit[:min(len(commit), 10)]), text(". Thank you."))
	said = strings.ReplaceAll(said, "```suggestion", "```text") // what it offered is no longer to be applied
	return inMarkdown(p) + "\n" + foldAway("What was found", said)
}

// foldAway is text behind a title that is shown when asked for. The title is never
// from a plan.
func foldAway(title, markdown string) string {
	return "<details><summary>" + title + "</summary>\n\n" + strings.TrimRight(markdown, "\n") + "\n\n</details>\n"
}

// inMarkdown gives a page as Markdown.
func inMarkdown(p *Page) string {
	var b strings.Builder
	_ = Markdown(&b, p) // a builder takes everything
	return b.String()
}

// shortened gives the page with each text cut to so many bytes.
func (p *Page) shortened(most int) *Page {
	short := new(Page)
	cut := func(line Line) Line {
		out := make(Line, len(line))
		for i, s := range line {
			out[i] = Span{clip(s.Text, most), s.Style}
		}
		return out
	}
	for _, b := range p.blocks {
		switch b := b.(type) {
		case paragraph:
			short.paragraph(cut(b.line)...)
		case item:
			short.item(b.depth, cut(b.line)...)
		case detail:
			short.detail(b.depth, b.label, cut(b.line)...)
		case heading:
			short.heading(b.level, cut(b.line)...)
		default:
			short.blocks = append(short.blocks, b)
		}
	}
	return short
}
