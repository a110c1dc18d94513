package rules

import (
	_ "embed"

	"passband.example/review"
)

//go:embed memory_full.md
var memoryFullDoc string

// MemoryFull reports a class of radio that cannot hold what the plan gives it.
var MemoryFull = &review.Rule{
	ID:       "memory-full",
	Severity: review.Block, // what does not fit is lost when the radio is loaded
	Edition:  2026,
	Doc:      memoryFullDoc,
	Run:      memoryFull,
}

func memoryFull(p *review.Pass) {
	by := pushing{Comparison: p.Comparison}
	for _, fit := range p.Expansion.Fits {
		for _, u := range usesOf(p.Plan, fit) {
			if u.used <= u.most {
				continue
			}
			f := u.finding()
			f.Why = "what does not fit is left out when the radio is loaded, and nobody chooses which"
			f.Fix = u.relief()
			f.Also = append(f.Also, by.whatAdded(u)...)
			p.Report(f)
		}
	}
}
