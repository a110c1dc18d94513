package rules

import (
	_ "embed"
	"errors"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed region_unknown.md
var regionUnknownDoc string

// RegionUnknown reports a region that has no license tables, so that nothing was
// judged against the law.
var RegionUnknown = &review.Rule{
	ID:       "region-unknown",
	Severity: review.Block, // a slip of a letter would switch the law off
	Edition:  2026,
	Doc:      regionUnknownDoc,
	Run:      regionUnknown,
}

// regionUnknown says nothing of a region that is not written: header-incomplete does.
func regionUnknown(p *review.Pass) {
	region := p.Plan.Header.Region
	if !region.IsSet() {
		return
	}
	var unknown *license.UnknownRegion
	if _, err := license.For(region.V); !errors.As(err, &unknown) {
		return
	}
	f := review.Finding{
		At: region.At, About: []plan.Thing{p.Plan.Header.Thing()}, Values: []string{region.V},
		What:   fmt.Sprintf("the region %.40q is not known, so no channel was judged against the law", region.V),
		Why:    "a channel off the band would not be noticed; " + answers,
		Fix:    "write the country of the club as two letters, such as US, or ITU-R1, ITU-R2 or ITU-R3",
		Source: "ISO 3166-1 alpha-2 country codes; ITU Radio Regulations, Article 5, for the Regions",
	}
	if unknown.Nearest != "" {
		f.Fix = fmt.Sprintf("did you mean %s?", unknown.Nearest)
	}
	p.Report(f)
}
