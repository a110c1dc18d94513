package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed group_id_of_person.md
var groupIDOfPersonDoc string

// GroupIDOfPerson reports a talkgroup with the number that is the radio ID of an operator.
var GroupIDOfPerson = &review.Rule{
	ID:       "group-id-of-person",
	Severity: review.Note, // a talkgroup may have any number, and some people have one of their own
	Edition:  2026,
	Doc:      groupIDOfPersonDoc,
	Run:      groupIDOfPerson,
}

func groupIDOfPerson(p *review.Pass) {
	numbers := make(map[signal.RadioID]bool)
	for _, g := range calledBy(p.Plan) {
		numbers[signal.RadioID(g.ID.V)] = true
	}
	people := make(map[signal.RadioID]*plan.Operator) // one who has the number is enough
	for _, o := range withID(p.Plan, func(id signal.RadioID) bool { return numbers[id] }) {
		if people[o.ID.V] == nil {
			people[o.ID.V] = o
		}
	}
	for _, g := range calledBy(p.Plan) {
		o := people[signal.RadioID(g.ID.V)]
		if o == nil || g.call != "group" {
			continue
		}
		f := g.oddNumber("is the radio ID of " + who(o))
		f.Why = "groups and people have numbers of their own, so a call to this one reaches nobody by that ID: where the person is meant, it is never heard"
		f.Fix = fmt.Sprintf("to call %s, write call: private; for a talkgroup, look its number up", who(o))
		f.Source = addressTable + ": groups and units have one address space each"
		f.Also = []review.Related{{At: o.ID.At, Text: who(o)}}
		p.Report(f)
	}
}
