package page

import (
	"cmp"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// findings are what the rules say, the gravest first.
type findings struct {
	Fresh    []group   // that came with the change, or all where one plan is judged
	Still    []finding // that stood before it
	Gone     []finding
	Accepted []finding
	More     int // that are left out
	Change   bool
}

// A group is the findings of one rule. Where they are many, and none of them blocks, most are
// folded.
type group struct{ Shown, Folded []finding }

// shownOfGroup is how many findings of a rule are shown where the rest is folded.
const shownOfGroup = 4

// groups puts findings of one rule together, in the order of the first of each.
func groups(all []finding) (gs []group) {
	type same struct {
		severity review.Severity
		rule     string
	}
	at := make(map[same]int)
	for _, f := range all {
		key := same{f.Severity, f.Rule}
		i, known := at[key]
		if !known {
			i = len(gs)
			at[key] = i
			gs = append(gs, group{})
		}
		gs[i].Shown = append(gs[i].Shown, f)
	}
	for i := range gs {
		if g := &gs[i]; len(g.Shown) > shownOfGroup+1 && g.Shown[0].Severity != review.Block {
			g.Shown, g.Folded = g.Shown[:shownOfGroup], g.Shown[shownOfGroup:]
		}
	}
	return gs
}

// A finding is one of them, with its places as a reader can open them.
type finding struct {
	review.Finding
	Place  string
	See    []related
	Until  string // of an accepted one
	Reason string
}

type related struct{ Place, Text string }

func (s *sides) findings() *findings {
	v := s.Verdict
	f := &findings{Change: v.Change}
	left := MostFindings
	take := func(all []review.Finding) (shown []finding) {
		all = slices.Clone(all)
		slices.SortStableFunc(all, func(a, b review.Finding) int { return cmp.Compare(b.Severity, a.Severity) })
		n := min(len(all), left)
		f.More += len(all) - n
		left -= n
		for _, one := range all[:n] {
			shown = append(shown, s.finding(one))
		}
		return shown
	}
	var fresh, still []review.Finding
	for _, one := range v.Findings {
		if one.Standing == review.Still {
			still = append(still, one)
		} else {
			fresh = append(fresh, one)
		}
	}
	f.Fresh, f.Still, f.Gone = groups(take(fresh)), take(still), take(v.Gone)
	for _, a := range v.Accepted[:min(len(v.Accepted), left)] {
		one := s.finding(a.Finding)
		one.Until, one.Reason = a.By.Until.V.String(), a.By.Reason.V
		f.Accepted = append(f.Accepted, one)
	}
	f.More += len(v.Accepted) - len(f.Accepted)
	return f
}

func (s *sides) finding(f review.Finding) finding {
	out := finding{Finding: f, Place: s.at(f.Standing, f.At)}
	for _, r := range f.Also {
		one := related{Text: r.Text}
		if !r.At.IsZero() {
			one.Place = s.at(f.Standing, r.At)
		}
		out.See = append(out.See, one)
	}
	return out
}

// at gives a place in the plan that a finding is about: the old one, where it is gone.
func (s *sides) at(standing review.Standing, at plan.Place) string {
	if standing == review.Gone && s.Old != nil {
		return s.Old.Place(at)
	}
	return s.New.Place(at)
}
