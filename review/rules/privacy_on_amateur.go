package rules

import (
	_ "embed"

	"passband.example/review"
	"passband.example/review/license"
)

//go:embed privacy_on_amateur.md
var privacyOnAmateurDoc string

// PrivacyOnAmateur reports a channel that would transmit with privacy where a rule against
// it was read.
var PrivacyOnAmateur = &review.Rule{
	ID:       "privacy-on-amateur",
	Severity: review.Block, // messages that hide their meaning are barred from amateur radio
	Edition:  2026,
	Doc:      privacyOnAmateurDoc,
	Run:      privacyOnAmateur,
}

func privacyOnAmateur(p *review.Pass) {
	onPrivacy(p, func(c license.Confidence) bool { return c != license.Memory }, "")
}
