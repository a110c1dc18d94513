package rules

import (
	_ "embed"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed club_claim.md
var clubClaimDoc string

// ClubClaim reports a transmission that the region's tables do not allow and a row of the
// club's own does.
var ClubClaim = &review.Rule{
	ID:       "club-claim",
	Severity: review.Warn, // the club says it has read the law; this program has not
	Edition:  2026,
	Doc:      clubClaimDoc,
	Run:      clubClaim,
}

func clubClaim(p *review.Pass) {
	l := lawOf(p)
	if l == nil || l.tables == l.national {
		return
	}
	told := make(map[sending]bool) // in another mode, or with its power
	all := l.judgments
	for _, t := range poweredTransmissions(p) {
		all = append(all, l.judge(t))
	}
	for _, j := range all {
		key := sending{by: j.by, on: j.on}
		own := claims(j.verdict)
		if len(own) == 0 || told[key] || j.station == license.RepeaterInput {
			continue
		}
		national := l.national.Transmit(l.query(j.transmission, j.on))
		if national.Outcome <= j.outcome {
			continue
		}
		told[key] = true
		p.Report(j.claimed(own, national))
	}
}

// claimed is the finding for what only the club's own rows allow.
func (j judgment) claimed(own []*license.Row, national license.Verdict) review.Finding {
	without := j
	without.verdict = national
	var sources []string
	for _, row := range own {
		sources = append(sources, rowSource(row))
	}
	o := national.Objections[0]
	return review.Finding{
		At: j.at, About: []plan.Thing{j.by}, Values: []string{j.on.String(), j.emission.Designator},
		What:   fmt.Sprintf("%s: the club's own row allows it, and without that row it would be %s: %s", j.transmission, national.Outcome, without.says(o)),
		Why:    "that the law allows it is the club's own claim, which this program has not checked; " + answers,
		Fix:    "let somebody who has read the law look at the row, and accept the finding with his name and the section",
		Source: strings.Join(sources, "; ") + "; against it: " + without.source(o),
		Also:   []review.Related{{At: plan.Place{File: own[0].File, Line: int32(own[0].Line), Col: 1}, Text: "the club's own row"}},
	}
}
