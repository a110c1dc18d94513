package rules

import (
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/license"
)

// fitSplits reports the repeaters whose split fits what is usual so. An input that the law
// bars is told by the rules of the law, which propose the usual split.
func fitSplits(p *review.Pass, want license.SplitFit) {
	l := lawOf(p)
	if l == nil {
		return
	}
	denied := make(map[plan.Thing]bool)
	for _, j := range l.judgments {
		if j.repeater != nil && j.outcome == license.Denied {
			denied[j.by] = true
		}
	}
	for _, r := range p.Plan.Repeaters.Sorted() {
		split, ok := ownSplit(r)
		if !ok || denied[r.Thing()] {
			continue
		}
		if fit, rows := l.tables.FitSplit(r.Output.V, split); fit == want {
			p.Report(misfit(r, split, fit, rows))
		}
	}
}

// misfit is the finding for a split that is not usual.
func misfit(r *plan.Repeater, split signal.Split, fit license.SplitFit, rows []*license.SplitRow) review.Finding {
	var usual, inputs, sources []string
	for _, row := range rows {
		usual = append(usual, row.Split.String())
		inputs = append(inputs, (r.Output.V + signal.Hertz(row.Split)).String())
		sources = append(sources, fmt.Sprintf("%s, %s line %d (%s)", row.Cite(), row.File, row.Line, row.Confidence))
	}
	usual, inputs = unique(usual), unique(inputs)
	says := fmt.Sprintf("the split %s of %s is not usual for %s MHz", split, r.Thing(), r.Output.V)
	if fit == license.SplitReversed {
		says = fmt.Sprintf("the split %s of %s has the other sign than is usual for %s MHz", split, r.Thing(), r.Output.V)
	}
	f := review.Finding{
		At: r.InputPlace(), About: []plan.Thing{r.Thing()}, Values: []string{r.Output.V.String(), split.String()},
		What:   fmt.Sprintf("%s: %s is, which makes the input %s MHz", says, strings.Join(usual, " or "), strings.Join(inputs, " or ")),
		Why:    "members would send where the repeater does not listen and somebody else may",
		Fix:    fmt.Sprintf("write %s, unless the coordination says otherwise", writeSplits(r, rows)),
		Source: strings.Join(unique(sources), "; "),
	}
	if fit == license.SplitReversed {
		f.Mend = turnSign(r, rows) // a split of another size may be coordinated
	}
	return f
}
