package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"maps"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed group_id_twice.md
var groupIDTwiceDoc string

// GroupIDTwice reports a number that two groups of one kind of call share.
var GroupIDTwice = &review.Rule{
	ID:       "group-id-twice",
	Severity: review.Block, // one of the two would call somebody else's group
	Edition:  2026,
	Doc:      groupIDTwiceDoc,
	Run:      groupIDTwice,
}

// An address is a number in one of the address spaces.
type address struct {
	id   signal.GroupID
	call string
}

func groupIDTwice(p *review.Pass) {
	sharing := make(map[address][]*plan.Group)
	for _, g := range p.Plan.Groups.Sorted() {
		if g.ID.IsSet() && !g.Call.Bad {
			a := address{g.ID.V, g.Call.Or("group")}
			sharing[a] = append(sharing[a], g)
		}
	}
	addresses := slices.SortedFunc(maps.Keys(sharing), func(a, b address) int {
		return cmp.Or(cmp.Compare(a.id, b.id), cmp.Compare(a.call, b.call))
	})
	for _, a := range addresses {
		if len(sharing[a]) > 1 {
			p.Report(sharedAddress(a, sharing[a]))
		}
	}
}

// sharedAddress is the finding for groups that share a number, sorted by key. It
// stands at the second of them in the files, which was most likely written later.
func sharedAddress(a address, groups []*plan.Group) review.Finding {
	f := review.Finding{
		Values: []string{a.id.String(), a.call},
		Why:    "the number is all that goes on the air: both keys would call the same stations, and one of them not those it names",
		Fix:    "give each its own number; if they are one, keep one and rename what refers to the other",
		Source: "ETSI TS 102 361-1 annex A, table A.1 (second-hand): groups and units have one address space each",
	}
	var names []string
	for _, g := range groups {
		f.About = append(f.About, g.Thing())
		names = append(names, g.Key.V)
	}
	f.What = fmt.Sprintf("the groups %s have the same number %s", several(names), a.id)
	inFile := slices.Clone(groups)
	slices.SortFunc(inFile, func(x, y *plan.Group) int { return x.ID.At.Compare(y.ID.At) })
	f.At = inFile[1].ID.At
	for i, g := range inFile {
		if i != 1 {
			f.Also = append(f.Also, review.Related{At: g.ID.At, Text: g.Thing().String() + " has it too"})
		}
	}
	return f
}
