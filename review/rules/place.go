package rules

import (
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/license"
)

// atPlaces reports what rows for a place bar, or may bar: one finding a record, at the
// first of its transmissions. Where the place does not decide, since the transmission
// is denied anyway, nothing is said.
func atPlaces(p *review.Pass, outcome license.Outcome) {
	l := lawOf(p)
	if l == nil {
		return
	}
	found := make(map[plan.Thing]*review.Finding)
	var order []plan.Thing
	for _, j := range slices.Concat(l.repeaters, l.members) { // an output takes its input along
		f, ok := j.atPlace(outcome)
		switch known := found[j.by]; {
		case !ok:
		case known == nil:
			found[j.by], order = &f, append(order, j.by)
		case known.At != f.At:
			known.Also = append(known.Also, review.Related{At: f.At, Text: fmt.Sprintf("so it is with %s MHz", j.on)})
		}
	}
	for _, by := range order {
		f := found[by]
		f.Also = slices.Compact(f.Also)
		p.Report(*f)
	}
}

// atPlace is the finding for what the place bars, if it ends so.
func (j judgment) atPlace(outcome license.Outcome) (review.Finding, bool) {
	if j.cause != notDenied || outcome == license.Doubtful && j.outcome == license.Denied {
		return review.Finding{}, false
	}
	var places, sources []string
	for _, o := range j.objections {
		if o.Outcome == outcome && o.Reason == license.PlaceBarred {
			places, sources = append(places, o.Place), append(sources, j.source(o))
		}
	}
	if len(places) == 0 {
		return review.Finding{}, false
	}
	places, sources = unique(places), unique(sources)
	f := review.Finding{
		At: j.at, About: []plan.Thing{j.by}, Values: append([]string{j.on.String()}, places...),
		What:   fmt.Sprintf("%s: not allowed %s", j.transmission, several(places)),
		Why:    "other stations have the frequency there; " + answers,
		Fix:    "use another frequency at this place, and ask the coordinator for it",
		Source: several(sources),
	}
	if outcome == license.Doubtful {
		f.What += ", and " + j.whyUnsure()
		f.Fix = j.tellPlace()
	}
	return f, true
}

// whyUnsure says why the place can't be told.
func (j judgment) whyUnsure() string {
	switch {
	case j.repeater == nil:
		return "the plan does not say where members use the channel"
	case j.law.site(j.repeater) == nil:
		return "the plan does not say where the repeater stands"
	case !j.repeater.Site.Lat.IsSet():
		return "its locator is too large a square to tell, or the limits are not known closely enough"
	}
	return "the limits are not known closely enough to tell for its site"
}

// tellPlace says what would tell the place.
func (j judgment) tellPlace() string {
	switch {
	case j.repeater == nil:
		return "if no member uses it there, accept the finding with that reason"
	case !j.repeater.Site.Lat.IsSet():
		return "write where the repeater stands (site: with lat and lon), so that it can be told"
	}
	return "look it up on a map of the rule; if it is allowed there, accept the finding with the reason"
}

// unique drops what was there before, and keeps the order.
func unique(all []string) []string {
	var once []string
	for _, s := range all {
		if !slices.Contains(once, s) {
			once = append(once, s)
		}
	}
	return once
}
