package rules

import (
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed scan_priority_missing.md
var scanPriorityMissingDoc string

// ScanPriorityMissing reports a scan list whose priority channel it does not hold.
var ScanPriorityMissing = &review.Rule{
	ID:       "scan-priority-missing",
	Severity: review.Warn, // the radio scans without priority
	Edition:  2026,
	Doc:      scanPriorityMissingDoc,
	Run:      scanPriorityMissing,
}

func scanPriorityMissing(p *review.Pass) {
	if !p.Expansion.Overflow.IsZero() {
		return // the lists are not worked out to their end
	}
	unsure := make(map[plan.Thing]bool) // lists with entries that may have meant it
	for _, u := range p.Expansion.Unresolved {
		unsure[u.From] = true
	}
	for _, s := range p.Expansion.ScanLists {
		list := s.List
		if s.Priority == nil || len(s.Members) == 0 || unsure[list.Thing()] || list.Partly() || holds(s) {
			continue
		}
		p.Report(review.Finding{
			At: list.Priority.At, About: []plan.Thing{list.Thing(), s.Priority.Thing()},
			What: fmt.Sprintf("the priority of %s is %s, which is not among its channels", list.Thing(), list.Priority.V),
			Why:  "a radio watches only what it scans, so it would scan without priority",
			Fix:  "add the channel to the list, or name one that is in it",
			Also: []review.Related{{At: list.Place(), Text: "the scan list"}},
		})
	}
}

// holds reports whether the scan list holds its priority channel. A talk path
// may have several channels; any of them will do.
func holds(s *plan.ScanChannels) bool {
	return slices.ContainsFunc(s.Members, func(m plan.Member) bool {
		return m.Channel == s.Priority || m.Channel.Path == s.List.Priority.V
	})
}
