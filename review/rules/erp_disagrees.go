package rules

import (
	_ "embed"
	"fmt"
	"math"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rf"
)

//go:embed erp_disagrees.md
var erpDisagreesDoc string

// ERPDisagrees tells of a stated ERP that is not what power, gain and loss of the same site make.
var ERPDisagrees = &review.Rule{
	ID:       "erp-disagrees",
	Severity: review.Note, // no transmission hangs on it
	Edition:  2026,
	Doc:      erpDisagreesDoc,
	Run:      erpDisagrees,
}

// disagreement is how far a stated ERP may be off what the other figures make, in decibels (a proposal
// of this project, no source): less than gains and losses are known to.
const disagreement = 1.0

func erpDisagrees(p *review.Pass) {
	for _, r := range p.Plan.Repeaters.Sorted() {
		s := r.Site
		watts, ok := chain(r)
		if !ok || !s.ERP.IsSet() {
			continue
		}
		off := rf.DBmOf(s.ERP.V.Watts()) - rf.DBmOf(watts)
		if math.Abs(off) <= disagreement {
			continue
		}
		p.Report(review.Finding{
			At: s.ERP.At, About: []plan.Thing{r.Thing()},
			Values: []string{s.ERP.V.String(), s.Output.V.String(), s.Gain.V.String(), s.Loss.V.String()},
			What:   fmt.Sprintf("%s states %s ERP, and %s with %s of gain and %s of loss make %s W: %.1f dB apart", r.Thing(), s.ERP.V, s.Output.V, s.Gain.V, s.Loss.V, digits(watts), math.Abs(off)),
			Why:    "reach, separation and exposure are reckoned from the ERP; a gain over an isotropic antenna taken for one over a dipole alone makes 2.15 dB",
			Fix:    "see whether the gain is in dBd (dBi less 2.15) and the loss holds lines, duplexer and filters; correct the one that is wrong, or leave erp_w out",
			Source: "ERP = power x 10^((gain over a dipole - losses)/10), common practice",
		})
	}
}
