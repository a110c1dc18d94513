package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed co_channel.md
var coChannelDoc string

// CoChannel reports two repeaters on one channel that stand nearer to each other than the separation table asks.
var CoChannel = &review.Rule{
	ID:       "co-channel",
	Severity: review.Warn, // the coordinator may have agreed to it
	Edition:  2026,
	Doc:      coChannelDoc,
	Run:      coChannel,
}

func coChannel(p *review.Pass) {
	reportConflicts(p, "co-channel", "members between them hear both at once, and tones or color codes keep listeners apart, not signals")
}
