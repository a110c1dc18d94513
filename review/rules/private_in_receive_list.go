package rules

import (
	_ "embed"
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed private_in_receive_list.md
var privateInReceiveListDoc string

// PrivateInReceiveList reports a contact in a receive list that is no talkgroup.
var PrivateInReceiveList = &review.Rule{
	ID:       "private-in-receive-list",
	Severity: review.Block, // a radio that takes the number for a group listens to strangers
	Edition:  2026,
	Doc:      privateInReceiveListDoc,
	Run:      privateInReceiveList,
}

// privateInReceiveList looks at the lists that somebody wrote. What a channel
// listens for by its slot is the groups of the slot: a private contact among them
// is a talk path to call on, and nobody put it into a list.
func privateInReceiveList(p *review.Pass) {
	for _, l := range p.Plan.ReceiveLists.All() {
		for _, name := range l.Groups {
			g, ok := p.Plan.Groups.Find(name.V)
			if !name.IsSet() || !ok || g.Call.Bad || g.Call.Or("group") == "group" {
				continue
			}
			p.Report(review.Finding{
				At: name.At, About: []plan.Thing{l.Thing(), g.Thing()}, Values: []string{g.Call.V},
				What:   fmt.Sprintf("%s holds %s, which is %s and no talkgroup", l.Thing(), g.Key.V, contact(g.Call.V)),
				Why:    "a radio hears private and all calls without a list; in one, the number would be taken for a talkgroup or refused",
				Fix:    "take it out of the list",
				Source: "common practice, no source",
				Also:   []review.Related{{At: g.Call.At, Text: "its kind of call"}},
			})
		}
	}
}

// contact says what a contact with this kind of call is.
func contact(call string) string {
	if call == "all" {
		return "an all-call contact"
	}
	return "a private contact"
}
