package rules

import (
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed repeater_twice.md
var repeaterTwiceDoc string

// RepeaterTwice reports one repeater that stands in the plan under two keys.
var RepeaterTwice = &review.Rule{
	ID:       "repeater-twice",
	Severity: review.Warn, // one licensee may have two repeaters on one frequency
	Edition:  2026,
	Doc:      repeaterTwiceDoc,
	Run:      repeaterTwice,
}

// A station is what a listener knows a repeater by.
type station struct {
	call   signal.Callsign
	output signal.Hertz
}

func repeaterTwice(p *review.Pass) {
	known := make(map[station][]*plan.Repeater)
	for _, r := range p.Plan.Repeaters.Sorted() {
		if r.Callsign.IsSet() && r.Output.IsSet() {
			s := station{r.Callsign.V, r.Output.V}
			known[s] = append(known[s], r)
		}
	}
	for s, repeaters := range known {
		if len(repeaters) > 1 && !apart(repeaters) {
			p.Report(oneStation(s, repeaters))
		}
	}
}

// apart reports whether the plan says that repeaters stand in different places, each
// of them in its own.
func apart(repeaters []*plan.Repeater) bool {
	places := make(map[plan.Site]bool)
	for _, r := range repeaters {
		s := r.Site
		if !s.Lat.IsSet() && !s.Grid.IsSet() {
			return false
		}
		places[plan.Site{
			Lat: plan.Value[signal.MicroDegrees]{V: s.Lat.V}, Lon: plan.Value[signal.MicroDegrees]{V: s.Lon.V}, Grid: plan.Value[signal.Grid]{V: s.Grid.V},
		}] = true
	}
	return len(places) == len(repeaters)
}

// oneStation is the finding for repeaters of one callsign and output, sorted by key.
// It stands at the key that comes last in the files.
func oneStation(s station, repeaters []*plan.Repeater) review.Finding {
	f := review.Finding{
		Values: []string{s.call.String(), s.output.String()},
		Why:    "it is most likely one repeater: its channels take twice the memory, and whoever edits one of the two forgets the other",
		Fix:    "keep one of them, with an fm side and a dmr side if it has both; if they are two, state the site of each",
		Source: "the plan's own text",
	}
	inFile := slices.SortedFunc(slices.Values(repeaters), func(a, b *plan.Repeater) int { return a.Place().Compare(b.Place()) })
	last := len(inFile) - 1
	var names []string
	for _, r := range repeaters {
		f.About = append(f.About, r.Thing())
		names = append(names, r.Key.V)
	}
	for _, r := range inFile[:last] {
		f.Also = append(f.Also, review.Related{At: r.Place(), Text: r.Thing().String()})
	}
	f.At = inFile[last].Place()
	f.What = fmt.Sprintf("the repeaters %s have the same callsign %s and the same output %s MHz", several(names), s.call, s.output)
	return f
}
