package report

import "fmt"

// An Overview is what one text says about a whole change: the summary comment of a
// pull request, and the summary of a job in continuous integration.
type Overview struct {
	Document *Document
	Keys     []string        // of the findings, in their order: FindingKeys
	OnLine   map[string]bool // the findings that have a comment on a line of their own
	Notes    []string        // what else a reader should know about how it was judged
	Partial  bool            // part of a plan could not be read: what changed is not known
	Limit    int             // bytes that the text may take; 0 for no limit
	Rest     string          // where all of it can be read: "the summary of the job"
	Earlier  []string        // the verdicts so far, one a line: VerdictLine
	Files    string          // the address of the files that were judged, as a forge shows them; "" where it is not known
}

// Markdown writes the overview: the verdict, what changes for members, the memory
// of each class of radio, what is found and what it rests on. Where the limit does
// not allow all of it, what is found comes first, worst first; then the memory; then
// the changes, and the text says how much of each it holds back.
func (o *Overview) Markdown() string {
	head, foot := o.head(), o.foot()
	findings, memory, changes := o.findings(), o.memory(), o.changes()
	room := o.Limit - len(head) - len(foot) - 3*longestNotice
	if o.Limit == 0 {
		room = int(^uint(0) >> 1)
	}
	for _, s := range []*section{findings, memory, changes} {
		room -= s.fit(room, o.Rest)
	}
	return head + changes.text + memory.text + findings.text + foot
}

func (o *Overview) head() string {
	d, p := o.Document, new(Page)
	line := Line{o.verdict()}
	if name := d.Expansion.Plan.Header.Title.Or(""); name != "" {
		line = line.and(text(": "), text("%s", name))
	}
	p.heading(1, line...)
	p.paragraph(text("%s.", sentence(d.tally())))
	if d.Verdict.Skipped != "" {
		p.paragraph(text("%s.", sentence(d.Verdict.Skipped)))
	}
	for _, note := range o.Notes {
		p.paragraph(text("%s", note))
	}
	return inMarkdown(p.shortened(longestText))
}

func (o *Overview) verdict() Span {
	if o.Document.Verdict.Blocks() {
		return Span{"Blocked", Plain}
	}
	return Span{"Nothing blocks", Plain}
}

// foot says what the verdict rests on, and how the verdicts before it were.
func (o *Overview) foot() string {
	d, p := o.Document, new(Page)
	p.heading(2, text("What this rests on"))
	if d.Old != nil && d.New != nil {
		line := Line{text("Compared from ")}.and(d.Old.Line()...)
		if d.Old.Note != "" {
			line = line.and(text(","))
		}
		p.paragraph(line.and(text(" to ")).and(d.New.Line()...).and(text("."))...)
	}
	if d.Verdict.Skipped == "" {
		p.paragraph(text("Judged by %s under the policy of the base, edition %s. Each finding names its source.", count(d.Verdict.Rules, "rule"), edition(d.Verdict.Policy.Edition)))
	}
	p.paragraph(text("%s", caution))
	said := "\n" + inMarkdown(p.shortened(longestText))
	if len(o.Earlier) > 0 {
		lines := ""
		for _, line := range o.Earlier {
			lines += line + "\n"
		}
		said += "\n" + foldAway(verdictsTitle, lines)
	}
	return said
}

// Status says the verdict in one line of at most 140 characters, as forges show it
// beside a commit.
func (d *Document) Status() string {
	verdict := "Nothing blocks"
	if d.Verdict.Blocks() {
		verdict = "Blocked"
	}
	said := fmt.Sprintf("%s: %s", verdict, d.tally())
	return said[:min(len(said), 140)] // ASCII
}
