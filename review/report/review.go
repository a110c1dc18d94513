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
	if len(fresh)+len(d.Verdict.Accepted)+len(d.Verdict.Gone) > 0 {
		p.heading(2, text("What is found"))
	}
	d.findings(p, fresh)
	d.accepted(p)
	for _, f := range d.Verdict.Gone {
		p.item(0, Span{"gone", Good}, text(": %s ", f.What), faint("[%s]", f.Rule))
	}
	switch n := len(still); n {
	case 0:
	case 1:
		p.paragraph(text("1 finding stood before this change and is not held against it."))
	default:
		p.paragraph(text("%d findings stood before this change and are not held against it.", n))
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
