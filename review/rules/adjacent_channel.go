package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed adjacent_channel.md
var adjacentChannelDoc string

// AdjacentChannel reports two repeaters on neighboring channels that stand nearer to each other
// than the separation table asks.
var AdjacentChannel = &review.Rule{
	ID:       "adjacent-channel",
	Severity: review.Warn, // the coordinator may have agreed to it
	Edition:  2026,
	Doc:      adjacentChannelDoc,
	Run:      adjacentChannel,
}

func adjacentChannel(p *review.Pass) {
	reportConflicts(p, "adjacent-channel", "a receiver near the one hears the edge of its signal beside the other")
}
