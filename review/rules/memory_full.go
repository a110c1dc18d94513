package rules

import (
	_ "embed"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
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
	for _, fit := range p.Expansion.Fits {
		for _, u := range fit.Uses {
			if u.Most > 0 && u.Used > u.Most {
				p.Report(overLimit(p, fit, u))
			}
		}
	}
}

// overLimit says that a radio holds too much of something, and what pushed it over.
func overLimit(p *review.Pass, fit *plan.Fit, u plan.Use) review.Finding {
	radio := fit.Radio.Thing()
	f := review.Finding{
		At: u.At, About: []plan.Thing{radio}, Values: []string{u.Limit.String()},
		What: fmt.Sprintf("%s would need %d %s and holds %d", radio, u.Used, words(u.Limit), u.Most),
		Why:  "what does not fit is left out when the radio is loaded, and nobody chooses which",
		Fix:  "give the radio fewer zones, or move channels into another zone",
	}
	if u.Who.Kind != 0 {
		f.About = append(f.About, u.Who)
		f.What = fmt.Sprintf("%s has %d %s on %s, which holds %d", u.Who, u.Used, words(u.Limit), radio, u.Most)
		f.Fix = "make it shorter, or split it"
		if r, ok := p.Plan.Find(u.Who); ok {
			f.At = r.Place()
			f.Also = append(f.Also, review.Related{At: u.At, Text: "the limit"})
		}
	}
	f.Also = append(f.Also, pushed(p, radio.Key)...)
	return f
}

// words gives a limit as a person says it.
func words(l plan.Limit) string { return strings.ReplaceAll(l.String(), "_", " ") }

// pushed names the changes that reach the radio, where a change is judged.
func pushed(p *review.Pass, radio string) []review.Related {
	if p.Comparison == nil {
		return nil
	}
	var by []review.Related
	for _, cause := range p.Comparison.Causes {
		for _, reached := range cause.Reach.Radios {
			if reached == radio {
				by = append(by, review.Related{At: cause.Changes[0].At, Text: "this change to " + cause.Thing.String() + " reaches the radio"})
			}
		}
	}
	return by
}
