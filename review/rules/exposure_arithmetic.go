package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rf"
)

//go:embed exposure_arithmetic.md
var exposureArithmeticDoc string

// ExposureArithmetic gives once for a plan the exposure distances of those antennas for which it does not
// say how near people come.
var ExposureArithmetic = &review.Rule{
	ID:       "exposure-arithmetic",
	Severity: review.Note, // figures to compare, and no fault
	Edition:  2026,
	Doc:      exposureArithmeticDoc,
	Run:      exposureArithmetic,
}

func exposureArithmetic(p *review.Pass) {
	unsaid := slices.DeleteFunc(slices.Clone(antennasOf(p)), func(a *antenna) bool { return a.repeater.Site.People.Written() })
	if len(unsaid) == 0 {
		return
	}
	slices.SortStableFunc(unsaid, func(a, b *antenna) int { return cmp.Compare(b.publicM, a.publicM) })
	first := unsaid[0]
	f := review.Finding{
		At: first.repeater.Site.Present.At, About: []plan.Thing{p.Plan.Header.Thing()},
		What:   fmt.Sprintf("the plan does not say how near people come to %s; by arithmetic, for %s", counted(len(unsaid), "antenna", "antennas"), first),
		Why:    "an antenna that people can come near calls for an evaluation; " + rf.ExposureNotice,
		Fix:    "write at the site how near anybody can come to the antenna (people_m), and it is compared",
		Source: first.source(),
	}
	const most = 30
	for i, a := range unsaid {
		f.Values = append(f.Values, a.value())
		if i > 0 && i < most {
			f.Also = append(f.Also, review.Related{At: a.repeater.Site.Present.At, Text: a.String()})
		}
	}
	slices.Sort(f.Values)
	p.Report(f)
}
