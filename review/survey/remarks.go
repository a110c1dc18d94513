package survey

import (
	"path"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// remarks are what coordinators said, by the key of the repeater that it is about.
type remarks map[string][]*plan.Coordination

// remarksOf gives the remarks of a plan that say who, when and what.
func remarksOf(p *plan.Plan) remarks {
	by := make(remarks)
	for _, c := range p.Coordinations.Sorted() {
		if c.Repeater.IsSet() && c.By.IsSet() && c.Date.IsSet() && c.Text.IsSet() && !c.With.Bad {
			by[c.Repeater.V] = append(by[c.Repeater.V], c)
		}
	}
	return by
}

// about gives those about both parties of a conflict, the latest first: those of either repeater
// that name the other, or nobody.
func (rs remarks) about(c *Conflict) []*plan.Coordination {
	found := slices.Concat(rs.of(c.Ours, c.Other), rs.of(c.Other, c.Ours))
	slices.SortStableFunc(found, func(a, b *plan.Coordination) int { return strings.Compare(b.Date.V.String(), a.Date.V.String()) })
	return found
}

func (rs remarks) of(one, other Party) []*plan.Coordination {
	if one.Repeater == nil {
		return nil
	}
	var found []*plan.Coordination
	for _, c := range rs[one.Repeater.Key.V] {
		if !c.With.IsSet() || other.isCalled(c.With.V) {
			found = append(found, c)
		}
	}
	return found
}

// isCalled reports whether a remark that names a party by this word means it.
func (p Party) isCalled(word string) bool {
	return slices.ContainsFunc(p.words(), func(w string) bool { return strings.EqualFold(w, word) })
}

// Strangers gives the remarks whose other party is no station of the plan or of its neighbor
// list, each with the nearest name that is, or "". Where the list, or a row of it, could not be
// read the party may be in there, and there are none.
func (s *Survey) Strangers(p *plan.Plan) map[*plan.Coordination]string {
	unread := slices.ContainsFunc(p.Problems, func(b plan.Problem) bool { return path.Base(b.At.File) == plan.NeighborsFile })
	if list := p.Header.List; unread || list.Written() && !slices.Contains(p.Files, list.V) {
		return nil
	}
	var words []string
	for _, party := range s.parties {
		words = append(words, party.words()...)
	}
	found := make(map[*plan.Coordination]string)
	for _, c := range p.Coordinations.Sorted() {
		if c.With.IsSet() && !slices.ContainsFunc(s.parties, func(party Party) bool { return party.isCalled(c.With.V) }) {
			found[c] = plan.Nearest(c.With.V, words)
		}
	}
	return found
}

// words are those by which a remark may name the party.
func (p Party) words() []string {
	if p.Repeater != nil {
		return []string{p.Repeater.Key.V, string(p.Repeater.Callsign.Or(""))}
	}
	return []string{string(p.Neighbor.Callsign.Or("")), p.Name}
}
