package rules

import (
	_ "embed"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
	"passband.example/review/survey"
)

//go:embed co_channel_unplaced.md
var coChannelUnplacedDoc string

// CoChannelUnplaced tells of repeaters of the plan on one output of which it cannot be told how far
// they are apart, since the plan does not say where they stand.
var CoChannelUnplaced = &review.Rule{
	ID:       "co-channel-unplaced",
	Severity: review.Note, // they may be far apart
	Edition:  2026,
	Doc:      coChannelUnplacedDoc,
	Run:      coChannelUnplaced,
}

func coChannelUnplaced(p *review.Pass) {
	sharing := make(map[signal.Hertz][]*plan.Repeater)
	var order []signal.Hertz
	for _, r := range p.Plan.Repeaters.Sorted() {
		if r.Output.IsSet() {
			if len(sharing[r.Output.V]) == 0 {
				order = append(order, r.Output.V)
			}
			sharing[r.Output.V] = append(sharing[r.Output.V], r)
		}
	}
	for _, output := range order {
		if all := sharing[output]; len(all) > 1 && slices.ContainsFunc(all, unplaced) && !oneCallsign(all) {
			p.Report(sharedOutput(output, all))
		}
	}
}

func unplaced(r *plan.Repeater) bool {
	s := r.Site
	unread := s.Lat.Bad || s.Lon.Bad || s.Grid.Bad // which is told already
	return survey.PlaceOf(r) == nil && !unread
}

// oneCallsign reports whether all of them have one callsign: see repeater-twice.
func oneCallsign(all []*plan.Repeater) bool {
	return !slices.ContainsFunc(all, func(r *plan.Repeater) bool { return !r.Callsign.IsSet() || r.Callsign.V != all[0].Callsign.V })
}

// sharedOutput is the finding for repeaters on one output. It stands at the last of them in the files
// that has no place.
func sharedOutput(output signal.Hertz, all []*plan.Repeater) review.Finding {
	f := review.Finding{
		Values: []string{output.String()},
		Why:    "where they can be heard together, members hear both at once, and nobody compared how far apart they are",
		Fix:    "write where each of them stands (site: with lat and lon), so that the distance can be compared with what coordinators ask",
		Source: "common practice, no source",
	}
	var names []string
	for _, r := range all {
		f.About, names = append(f.About, r.Thing()), append(names, r.Key.V)
	}
	inFile := slices.SortedFunc(slices.Values(all), func(a, b *plan.Repeater) int { return a.Place().Compare(b.Place()) })
	for _, r := range inFile {
		if unplaced(r) {
			f.At = r.Output.At
		}
	}
	for _, r := range inFile {
		if r.Output.At != f.At {
			f.Also = append(f.Also, review.Related{At: r.Output.At, Text: r.Thing().String()})
		}
	}
	slices.SortFunc(f.About, func(a, b plan.Thing) int { return compareOnAir(find(all, a), find(all, b)) })
	f.What = fmt.Sprintf("the repeaters %s have the same output %s MHz, and the plan does not say how far they are apart", several(names), output)
	return f
}

func find(all []*plan.Repeater, t plan.Thing) *plan.Repeater {
	return all[slices.IndexFunc(all, func(r *plan.Repeater) bool { return r.Thing() == t })]
}
