package rules

import (
	_ "embed"
	"errors"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

//go:embed license_unknown.md
var licenseUnknownDoc string

// LicenseUnknown reports a class of license that the region does not have.
var LicenseUnknown = &review.Rule{
	ID:       "license-unknown",
	Severity: review.Block, // a slip of a letter would judge by what the highest class may
	Edition:  2026,
	Doc:      licenseUnknownDoc,
	Run:      licenseUnknown,
}

// licenseUnknown says nothing of a license that is not written: header-incomplete does.
func licenseUnknown(p *review.Pass) {
	l, class := lawOf(p), p.Plan.Header.License
	if l == nil || !class.IsSet() {
		return
	}
	var unknown *license.UnknownClass
	if _, err := l.tables.Class(class.V); !errors.As(err, &unknown) {
		return
	}
	var known []string
	for _, c := range unknown.Known {
		known = append(known, string(c))
	}
	f := review.Finding{
		At: class.At, About: []plan.Thing{p.Plan.Header.Thing()}, Values: []string{class.V},
		What:   fmt.Sprintf("%.40q is no class of license of %s, so channels were judged by what all classes may together", class.V, l.tables.Name),
		Why:    "a channel that members of a lower class may not use would not be noticed; " + answers,
		Fix:    "write one of: " + strings.Join(known, ", "),
		Source: "the license tables of this program",
	}
	if unknown.Nearest != "" {
		f.Fix = fmt.Sprintf("did you mean %s? the classes are %s", unknown.Nearest, strings.Join(known, ", "))
	}
	p.Report(f)
}
