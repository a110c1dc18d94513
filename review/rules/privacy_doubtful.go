package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed privacy_doubtful.md
var privacyDoubtfulDoc string

// PrivacyDoubtful reports a channel that would transmit with privacy where no rule was read
// that bars it.
var PrivacyDoubtful = &review.Rule{
	ID:       "privacy-doubtful",
	Severity: review.Warn, // most countries bar it, and no rule of this one was read
	Edition:  2026,
	Doc:      privacyDoubtfulDoc,
	Run:      privacyDoubtful,
}

func privacyDoubtful(p *review.Pass) {
	onPrivacy(p, func(c license.Confidence) bool { return c == license.Memory }, ", by a rule whose text was not read")
}
