package rules

import (
	_ "embed"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed memory_nearly_full.md
var memoryNearlyFullDoc string

// MemoryNearlyFull reports a class of radio that the plan all but fills.
var MemoryNearlyFull = &review.Rule{
	ID:       "memory-nearly-full",
	Severity: review.Warn, // it fits today, and the next repeater may not
	Edition:  2026,
	Doc:      memoryNearlyFullDoc,
	Run:      memoryNearlyFull,
}

// What counts as nearly full. Of a limit below 20 one is more than 5 %, and a zone with 15 of
// 16 channels is how zones are made (common practice, no source).
const (
	nearlyPercent = 95
	smallestLimit = 20
)

func memoryNearlyFull(p *review.Pass) {
	for _, fit := range p.Expansion.Fits {
		for _, u := range usesOf(p.Plan, fit) {
			if u.most < smallestLimit || u.used > u.most || u.used*100 < u.most*nearlyPercent || u.limit == plan.LimitMessageLength {
				continue // a message does not grow
			}
			f := u.finding()
			f.Why = "it fits today; the next repeater or group may not, and whoever adds it will be the one who is blocked"
			f.Fix = "make room while nobody waits for it: " + u.relief()
			p.Report(f)
		}
	}
}
