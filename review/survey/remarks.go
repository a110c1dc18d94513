package survey

import (
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
	if p.Repeater != nil {
		return word == p.Repeater.Key.V || strings.EqualFold(word, string(p.Repeater.Callsign.Or("")))
	}
	return strings.EqualFold(word, string(p.Neighbor.Callsign.Or(""))) || strings.EqualFold(word, p.Name)
}
