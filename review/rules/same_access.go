package rules

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

//go:embed same_access.md
var sameAccessDoc string

// SameAccess reports two repeaters on one channel within reach whose tones or color codes do not
// tell them apart.
var SameAccess = &review.Rule{
	ID:       "same-access",
	Severity: review.Warn, // the coordinator may have agreed to it
	Edition:  2026,
	Doc:      sameAccessDoc,
	Run:      sameAccess,
}

func sameAccess(p *review.Pass) {
	s := surveyOf(p)
	for _, c := range conflictsOf(p, "same-access") {
		f := conflictFinding(p, c)
		f.Why = "a member opens both at once, or a radio takes one for the other; " + coordinatorDecides
		if c.Access == rf.SameColorCode {
			f.Fix = fmt.Sprintf("give one of them another color code, if the two must share a channel (%s); %s", freeCodes(s, c), askAbout(c))
		} else {
			f.Fix = "give one of them another access tone, if the two must share a channel; " + askAbout(c)
		}
		p.Report(f)
	}
}

// freeCodes names the color codes that no repeater has which stands too near on that channel. 15 is
// left out: see color-code-15.
func freeCodes(s *survey.Survey, c *survey.Conflict) string {
	taken := make(map[signal.ColorCode]bool)
	for i := range s.Conflicts {
		other := &s.Conflicts[i]
		if other.Kind != rf.CoChannel || other.Ours.Name != c.Ours.Name && other.Other.Name != c.Ours.Name {
			continue
		}
		taken[s.Stations[other.A].ColorCode] = s.Stations[other.A].DMR
		taken[s.Stations[other.B].ColorCode] = taken[s.Stations[other.B].ColorCode] || s.Stations[other.B].DMR
	}
	var free []string
	for code := signal.ColorCode(0); code < 15; code++ {
		if !taken[code] {
			free = append(free, code.String())
		}
	}
	if len(free) == 0 {
		return "none is free here"
	}
	return "free near " + c.Ours.Name + ": " + strings.Join(slices.Clip(free[:min(len(free), 5)]), ", ")
}
