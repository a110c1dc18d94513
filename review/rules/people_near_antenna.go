package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/rf"
)

//go:embed people_near_antenna.md
var peopleNearAntennaDoc string

// PeopleNearAntenna reports a place where people can be that is nearer to an antenna than the
// distance at which, by arithmetic, the exposure limit for the public is met.
var PeopleNearAntenna = &review.Rule{
	ID:       "people-near-antenna",
	Severity: review.Warn, // it is arithmetic for the main beam, and the licensee evaluates
	Edition:  2026,
	Doc:      peopleNearAntennaDoc,
	Run:      peopleNearAntenna,
}

func peopleNearAntenna(p *review.Pass) {
	reportNear(p, func(a *antenna, people float64) bool { return people <= a.publicM }, review.Finding{
		Why: "people may be exposed to more than the limit; " + rf.ExposureNotice,
		Fix: "keep people farther away, lower the power, or have the licensee evaluate the site (47 CFR 97.13(c) in the US)",
	}, "people come as near as %s to the antenna of %s")
}
