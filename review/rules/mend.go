package rules

import (
	"passband.example/plandiff/plan"
	"passband.example/review"
)

// mend says that a field with these values would mend a finding.
func mend(r plan.Record, field string, values ...string) review.Mend {
	return review.Mend{review.Setting(r, field, values...)}
}
