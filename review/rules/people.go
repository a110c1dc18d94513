package rules

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

// peopleWith gives the rows of operators that odd wants, one for each person and radio
// ID: who uses one ID on several radios has several rows. It is the one with the
// least key, so that the order of the table does not matter.
func peopleWith(p *plan.Plan, odd func(*plan.Operator) bool) []*plan.Operator {
	type person struct {
		id   signal.RadioID
		call signal.Callsign
	}
	least := make(map[person]*plan.Operator)
	for _, o := range p.Operators.All() {
		if !odd(o) {
			continue
		}
		who := person{o.ID.Or(0), o.Callsign.Or("")}
		if known := least[who]; known == nil || o.Key.V < known.Key.V {
			least[who] = o
		}
	}
	rows := make([]*plan.Operator, 0, len(least))
	for _, o := range least {
		rows = append(rows, o)
	}
	slices.SortFunc(rows, func(a, b *plan.Operator) int { return strings.Compare(a.Key.V, b.Key.V) })
	return rows
}

// withID gives the rows of people whose radio ID odd wants.
func withID(p *plan.Plan, odd func(signal.RadioID) bool) []*plan.Operator {
	return peopleWith(p, func(o *plan.Operator) bool { return o.ID.IsSet() && odd(o.ID.V) })
}

// who names a person as a reader of the table would.
func who(o *plan.Operator) string {
	if o.Callsign.IsSet() {
		return o.Callsign.V.String()
	}
	return o.Thing().String()
}

// oddID is a finding about the radio ID of a person.
func oddID(o *plan.Operator, what string) review.Finding {
	return review.Finding{
		At: o.ID.At, About: []plan.Thing{o.Thing()}, Values: []string{o.ID.V.String()},
		What: "the radio ID " + o.ID.V.String() + " of " + who(o) + " " + what,
	}
}

// A called is a group with a number, and what the number addresses: one of the units,
// one of the groups, or all.
type called struct {
	*plan.Group
	call string
}

// calledBy gives the groups whose number and kind of call are known.
func calledBy(p *plan.Plan) []called {
	var all []called
	for _, g := range p.Groups.All() {
		if g.ID.IsSet() && !g.Call.Bad {
			all = append(all, called{g, g.Call.Or("group")})
		}
	}
	return all
}

// addressTable is what the rules of numbers rest on.
const addressTable = "ETSI TS 102 361-1 annex A, table A.1 (second-hand)"

// oddNumber is a finding about the number of a group.
func (g called) oddNumber(what string) review.Finding {
	return review.Finding{
		At: g.ID.At, About: []plan.Thing{g.Thing()}, Values: []string{g.ID.V.String(), g.call},
		What: "the number " + g.ID.V.String() + " of " + g.Thing().String() + " " + what,
	}
}
