package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/rf"
	"passband.example/review/survey"
)

// coordinatorDecides ends what the findings about neighbors on the air say of why it matters.
const coordinatorDecides = "this is an estimate without terrain, and the frequency coordinator decides"

// askFirst is what to do first about a pair of stations.
const askFirst = "ask the frequency coordinator, and write down under coordination what they said"

// askAbout is what to do about a pair: where the club's own row asks, there is none to put over it.
func askAbout(c *survey.Conflict) string {
	if c.Row.File == survey.OwnFile {
		return askFirst + "; the distance is the one of your own row"
	}
	return askFirst + "; where they ask another distance, put their row into separation.csv"
}

// surveyOf gives the survey of the stations of a plan, made once for all rules.
func surveyOf(p *review.Pass) *survey.Survey {
	type key struct{}
	return review.Once(p, key{}, func() *survey.Survey { return survey.Of(p.Plan) })
}

// conflictRule names the rule that a conflict is told by: each has one.
func conflictRule(c *survey.Conflict) string {
	switch {
	case len(c.Remarks) > 0:
		return "coordinated"
	case c.Short == rf.CannotTell:
		return "place-too-coarse"
	case c.Short == rf.No:
		return "spacing-barely-met"
	case c.Kind == rf.Crossed:
		return "crossed-pair"
	case c.Kind == rf.Adjacent:
		return "adjacent-channel"
	case c.Access == rf.SameTone || c.Access == rf.SameColorCode || c.Access == rf.BothOpen:
		return "same-access"
	}
	return "co-channel"
}

// conflictsOf gives the conflicts that a rule tells.
func conflictsOf(p *review.Pass, rule string) []*survey.Conflict {
	var found []*survey.Conflict
	s := surveyOf(p)
	for i := range s.Conflicts {
		if c := &s.Conflicts[i]; conflictRule(c) == rule {
			found = append(found, c)
		}
	}
	return found
}

// reportConflicts reports the conflicts that a rule tells, with its words on why each matters.
func reportConflicts(p *review.Pass, rule, why string) {
	for _, c := range conflictsOf(p, rule) {
		f := conflictFinding(p, c)
		f.Why = why + "; " + coordinatorDecides
		p.Report(f)
	}
}

// conflictFinding is the finding about two stations. It stands at the one that a change touched, else
// at the plan's own, and is the same one as long as their frequencies and whole kilometers are.
func conflictFinding(p *review.Pass, c *survey.Conflict) review.Finding {
	f := review.Finding{
		What: c.Text(), Fix: askAbout(c), Source: tableSource(p, c.Row),
		Values: []string{c.Kind.String(), c.Spacing.String(), fmt.Sprintf("%.0f km", c.Distance.Least/1000)},
	}
	here, there := c.Ours, c.Other
	if there.Repeater == nil {
		f.About = []plan.Thing{here.Repeater.Thing()}
		f.Values = append(f.Values, there.Name, there.Neighbor.Output.V.String())
		f.Also = []review.Related{{At: rowPlace(p, there), Text: neighborText(there)}}
	} else {
		if touched(p, there.Repeater) && !touched(p, here.Repeater) {
			here, there = there, here
		}
		f.About = []plan.Thing{c.Ours.Repeater.Thing(), c.Other.Repeater.Thing()}
		if compareOnAir(c.Ours.Repeater, c.Other.Repeater) > 0 {
			slices.Reverse(f.About)
		}
		f.Values = append(f.Values, c.Ours.Repeater.Output.V.String())
		f.Also = []review.Related{{At: there.At(), Text: there.Repeater.Thing().String()}}
	}
	f.At = here.Repeater.Output.At
	if !here.Repeater.Output.IsSet() {
		f.At = here.At()
	}
	return f
}

// compareOnAir orders repeaters by what no new key changes.
func compareOnAir(a, b *plan.Repeater) int {
	return cmp.Or(
		cmp.Compare(a.Output.V, b.Output.V), cmp.Compare(a.TransmitOn(), b.TransmitOn()),
		cmp.Compare(a.Site.Lat.V, b.Site.Lat.V), cmp.Compare(a.Site.Lon.V, b.Site.Lon.V),
		strings.Compare(string(a.Site.Grid.V), string(b.Site.Grid.V)), strings.Compare(a.Key.V, b.Key.V),
	)
}

// touched reports whether the change that is judged is one of this record.
func touched(p *review.Pass, r plan.Record) bool {
	if p.Comparison == nil {
		return false
	}
	type key struct{}
	changed := review.Once(p, key{}, func() map[plan.Thing]bool {
		all := make(map[plan.Thing]bool)
		for i := range p.Comparison.Changes {
			all[p.Comparison.Changes[i].Thing] = true
		}
		return all
	})
	return changed[r.Thing()]
}

// rowPlace gives where a neighbor is listed; for one that the change took out, where the plan
// names its list.
func rowPlace(p *review.Pass, neighbor survey.Party) plan.Place {
	switch at := neighbor.At(); {
	case !at.IsZero():
		return at
	case p.Plan.Header.List.Written():
		return p.Plan.Header.List.At
	}
	return plan.Place{File: plan.RootFile, Line: 1, Col: 1}
}

// neighborText says what the neighbor list says of a station, and who says so.
func neighborText(party survey.Party) string {
	n := party.Neighbor
	text := party.Name + " in the neighbor list"
	if party.Before {
		text = party.Name + ", which this change takes out of the neighbor list: it counts until the change is merged"
	}
	if n.Source.IsSet() {
		text += ", by " + n.Source.V
	}
	if n.Date.IsSet() {
		text += ", as of " + n.Date.V.String()
	}
	return text
}

// tableSource names the row of the separation table that was used.
func tableSource(p *review.Pass, row *rf.Row) string {
	source := row.Cite()
	if row.File == survey.OwnFile {
		return fmt.Sprintf("the club's own row: %s [%s line %d]", source, plan.SeparationFile, row.Line)
	}
	source += " [" + row.Confidence + "]"
	if region := p.Plan.Header.Region.Or(""); row.Region == "any" && !strings.EqualFold(region, "US") {
		source += ", from what councils in the US publish; none was found for " + cmp.Or(region, "a plan without a region")
	}
	return source + "; local coordinators differ"
}
