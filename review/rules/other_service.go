package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed other_service.md
var otherServiceDoc string

// OtherService reports a transmission on a channel, or in a range, of another service.
var OtherService = &review.Rule{
	ID:       "other-service",
	Severity: review.Block, // somebody may depend on the channel for his life
	Edition:  2026,
	Doc:      otherServiceDoc,
	Run:      onOtherService,
}

func onOtherService(p *review.Pass) { unlawful(p, otherService) }
