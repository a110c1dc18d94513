package rules

import (
	_ "embed"
	"fmt"
	"maps"
	"slices"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed radio_id_shared.md
var radioIDSharedDoc string

// RadioIDShared reports a radio ID that stands under two callsigns.
var RadioIDShared = &review.Rule{
	ID:       "radio-id-shared",
	Severity: review.Block, // two people would be heard as one
	Edition:  2026,
	Doc:      radioIDSharedDoc,
	Run:      radioIDShared,
}

// most places that a finding lists besides its own.
const mostAlso = 10

func radioIDShared(p *review.Pass) {
	first := make(map[signal.RadioID]signal.Callsign, p.Plan.Operators.Len())
	sharing := make(map[signal.RadioID][]*plan.Operator)
	for _, o := range p.Plan.Operators.All() {
		if !o.ID.IsSet() || !o.Callsign.IsSet() {
			continue
		}
		call, seen := first[o.ID.V]
		if !seen {
			first[o.ID.V] = o.Callsign.V
		} else if call != o.Callsign.V {
			sharing[o.ID.V] = nil
		}
	}
	if len(sharing) == 0 {
		return
	}
	for _, o := range p.Plan.Operators.Sorted() {
		if rows, shared := sharing[o.ID.V]; shared && o.ID.IsSet() && o.Callsign.IsSet() {
			sharing[o.ID.V] = append(rows, o)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(sharing)) {
		p.Report(sharedID(id, sharing[id]))
	}
}

// sharedID is the finding for rows with one ID, sorted by key. It is about one row
// for each callsign, and stands at the first row that brings a second callsign.
func sharedID(id signal.RadioID, rows []*plan.Operator) review.Finding {
	f := review.Finding{
		Values: []string{id.String()},
		Why:    "a radio shows who speaks by this number, so the two would be heard as one, and a private call to one rings at both",
		Fix:    "look up whose it is, and give the other one of their own; one person may use one ID on several radios, under one callsign",
		Source: "ETSI TS 102 361-1 annex A (second-hand): the unit address tells who sends; one ID a person is common practice, no source",
	}
	var calls []string
	for _, o := range rows {
		if call := o.Callsign.V.String(); !slices.Contains(calls[max(0, len(calls)-1):], call) { // rows of one call stand together
			calls = append(calls, call)
			f.About = append(f.About, o.Thing())
		}
	}
	f.Values = append(f.Values, calls...)
	f.What = fmt.Sprintf("the radio ID %s stands under %s", id, several(calls))
	inFile := slices.Clone(rows)
	slices.SortFunc(inFile, func(x, y *plan.Operator) int { return x.Place().Compare(y.Place()) })
	second := slices.IndexFunc(inFile, func(o *plan.Operator) bool { return o.Callsign.V != inFile[0].Callsign.V })
	f.At = inFile[second].ID.At
	for i, o := range inFile {
		if i != second && len(f.Also) < mostAlso {
			f.Also = append(f.Also, review.Related{At: o.ID.At, Text: o.Callsign.V.String() + " has it here"})
		}
	}
	return f
}
