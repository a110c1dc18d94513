package report

import (
	"passband.example/review"
)

// Review reports a change with its verdict: first whether it may go in, then what
// is wrong, then what changes for members.
func Review(d *Document) *Page {
	p := new(Page)
	d.title(p, "Review")
	d.verdict(p)
	fresh, still := split(d.Verdict.Findings)
	d.findings(p, fresh)
	d.accepted(p)
	for _, f := range d.Verdict.Gone {
		p.item(0, Span{"gone", Good}, text(": %s ", f.What), faint("[%s]", f.Rule))
	}
	if len(still) > 0 {
		p.paragraph(text("%s was there before this change and is not held against it.", count(len(still), "finding")))
	}
	p.heading(2, text("What changes"))
	d.changes(p)
	return p
}

func split(fs []review.Finding) (fresh, still []review.Finding) {
	for _, f := range fs {
		if f.Standing == review.Still {
			still = append(still, f)
		} else {
			fresh = append(fresh, f)
		}
	}
	return fresh, still
}
