package report

import (
	"fmt"
	"strings"
	"time"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A Log is what the history of a plan is reported with. Its pages are written one
// by one, so that the newest can be read while older commits are still compared:
// Head, Entry for each, Foot.
type Log struct {
	Plan  string // its name
	Of    *Origin
	From  *Origin // where the span begins; nil for the whole history
	Query chronicle.Query
}

// Head is the title.
func (l *Log) Head() *Page {
	p := new(Page)
	line := Line{text("History")}
	if l.Plan != "" {
		line = append(line, text(" of "), strong(l.Plan))
	}
	if l.Query.Thing != "" {
		line = append(line, text(": "), code(l.Query.Thing))
	}
	line = append(append(line, text(", ")), l.Of.Line()...)
	if l.From != nil {
		line = append(append(line, text(" since ")), l.From.Line()...)
	}
	p.heading(1, line...)
	return p
}

// Entry says what one commit did.
func (l *Log) Entry(e *chronicle.Entry) *Page {
	p := new(Page)
	p.heading(2, code(e.Commit.Short()), text(" %s %s", day(e.Commit.When), e.Commit.Author))
	p.paragraph(text("%s", subject(e.Commit)))
	switch e.Standing {
	case chronicle.Broken:
		p.item(0, Span{"cannot be read", Warns}, text(": %s", e.Problem.Error()))
		return p
	case chronicle.Ended:
		p.item(0, text("the plan ends here: there is no "), code(plan.RootFile), text(" after this commit"))
		return p
	case chronicle.Began:
		if l.Query.Thing == "" {
			p.item(0, append(Line{text("the plan begins here: ")}, listed(holdings(e))...)...)
			return p
		}
	}
	if e.Since != nil {
		p.paragraph(text("Compared with "), code(e.Since.Short()), text(", because the plans in between cannot be read."))
	}
	if e.IsMerge() {
		p.paragraph(text("A merge, with what it changed itself."))
	}
	if e.Moved {
		p.item(0, text("the plan moved from "), code(folderName(e.Was)), text(" to "), code(folderName(e.Folder)))
	}
	d := &Document{Comparison: e.Comparison, placeless: true, brief: !l.Query.Reach}
	d.causes(p, e.Causes)
	return p
}

func folderName(dir string) string {
	if dir == "" {
		return "."
	}
	return dir
}

// day says a date as ISO 8601 does, in the zone of whoever made the commit.
func day(t time.Time) string {
	if t.IsZero() {
		return "no date"
	}
	return t.Format(time.DateOnly)
}

func subject(c history.Commit) string {
	if c.Subject == "" {
		return "(no message)"
	}
	return c.Subject
}

// holdings counts what a plan begins with.
func holdings(e *chronicle.Entry) []Line {
	var parts []Line
	for _, s := range plan.Sections() {
		if n := len(s.All(e.Comparison.New.Plan)); n > 0 && s.Kind != plan.KindPlan {
			parts = append(parts, Line{text("%s", count(n, s.Kind.String()))})
		}
	}
	if len(parts) == 0 {
		return []Line{{text("nothing in it yet")}}
	}
	return parts
}

// Foot counts what was told, and what was not.
func (l *Log) Foot(t chronicle.Tally) *Page {
	p := new(Page)
	parts := []string{count(t.Shown, "commit") + " shown"}
	if t.Lighter > 0 {
		parts = append(parts, fmt.Sprintf("%s changed nothing as heavy as %s", count(t.Lighter, "commit"), l.Query.Least))
	}
	if t.Reformatted > 0 {
		parts = append(parts, count(t.Reformatted, "commit")+" changed the text alone")
	}
	p.paragraph(text("%s.", sentence(strings.Join(parts, "; "))))
	if t.Cut {
		p.paragraph(text("This clone is shallow: what was before was not fetched (\"git fetch --unshallow\" fetches it)."))
	}
	return p
}
