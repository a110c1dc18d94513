package report

import (
	"fmt"
	"strings"

	"passband.example/review"
)

// caution stands at the end of every verdict.
const caution = "The license holder answers for every transmission; the frequency coordinator and local law have the last word."

// verdict is the last word: whether it blocks, why, and what that rests on.
func (d *Document) verdict(p *Page) {
	v := d.Verdict
	if v.Skipped != "" {
		p.paragraph(text("%s.", sentence(v.Skipped)))
	}
	verdict := Span{"Nothing blocks", Good}
	if v.Blocks() {
		verdict = Span{"Blocked", Blocks}
	}
	p.paragraph(verdict, text(": %s.", d.tally()))
	p.paragraph(faint("%s", d.Basis()))
}

func edition(year int) string {
	if year == 0 {
		return "not stated"
	}
	return fmt.Sprint(year)
}

// tally counts the findings by severity and, where a change is judged, standing.
func (d *Document) tally() string {
	v := d.Verdict
	said := bySeverity(v, review.New)
	if v.Change {
		said = "the change brings " + said
		if still := total(v, review.Still); still > 0 {
			said += fmt.Sprintf("; %d stood before", still)
		}
		if n := len(v.Gone); n > 0 {
			said += fmt.Sprintf("; %d gone", n)
		}
	}
	if n := len(v.Accepted); n > 0 {
		said += fmt.Sprintf("; %d accepted", n)
	}
	return said
}

func bySeverity(v *review.Verdict, standing review.Standing) string {
	var parts []string
	for _, s := range []review.Severity{review.Block, review.Warn, review.Note} {
		if n := v.Count(s, standing); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, s))
		}
	}
	if len(parts) == 0 {
		return "no finding"
	}
	return strings.Join(parts, ", ")
}

func total(v *review.Verdict, standing review.Standing) int {
	return v.Count(review.Block, standing) + v.Count(review.Warn, standing) + v.Count(review.Note, standing)
}
