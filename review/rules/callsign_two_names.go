package rules

import (
	"cmp"
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

//go:embed callsign_two_names.md
var callsignTwoNamesDoc string

// CallsignTwoNames reports a callsign that stands under the names of two people.
var CallsignTwoNames = &review.Rule{
	ID:       "callsign-two-names",
	Severity: review.Note, // people have nicknames, and clubs have callsigns too
	Edition:  2026,
	Doc:      callsignTwoNamesDoc,
	Run:      callsignTwoNames,
}

func callsignTwoNames(p *review.Pass) {
	named := make(map[signal.Callsign]string, p.Plan.Operators.Len())
	shared := make(map[signal.Callsign]bool)
	for _, o := range p.Plan.Operators.All() {
		if !o.Callsign.IsSet() || !o.Person.IsSet() {
			continue
		}
		if name, seen := named[o.Callsign.V]; !seen {
			named[o.Callsign.V] = o.Person.V
		} else if name != o.Person.V {
			shared[o.Callsign.V] = true
		}
	}
	if len(shared) == 0 {
		return
	}
	rows := make(map[signal.Callsign][]*plan.Operator, len(shared))
	for _, o := range p.Plan.Operators.Sorted() {
		if shared[o.Callsign.V] && o.Callsign.IsSet() && o.Person.IsSet() {
			rows[o.Callsign.V] = append(rows[o.Callsign.V], o)
		}
	}
	for _, of := range rows {
		if other := strangerTo(of[0], of); other != nil {
			p.Report(twoNames(of[0], other))
		}
	}
}

// strangerTo gives the first row whose name shares no word with that of one, nor with a name
// that does; nil where all may be one person: Ann, Ann in the car.
func strangerTo(one *plan.Operator, rows []*plan.Operator) *plan.Operator {
	known := make(map[string]bool)
	for _, word := range wordsOf(one.Person.V) {
		known[word] = true
	}
	longest := slices.Clone(rows) // a name in full knows those that are parts of it
	slices.SortStableFunc(longest, func(a, b *plan.Operator) int { return cmp.Compare(len(b.Person.V), len(a.Person.V)) })
	var strangers []*plan.Operator
	for _, o := range longest {
		words := wordsOf(o.Person.V)
		if len(words) > 0 && !slices.ContainsFunc(words, func(word string) bool { return known[word] }) {
			strangers = append(strangers, o)
			continue
		}
		for _, word := range words {
			known[word] = true
		}
	}
	if len(strangers) == 0 || len(known) == 0 {
		return nil
	}
	return slices.MinFunc(strangers, func(a, b *plan.Operator) int { return cmp.Compare(a.Key.V, b.Key.V) })
}

// wordsOf gives the words of a name, in small letters.
func wordsOf(name string) []string {
	return strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r)
	})
}

// twoNames is the finding for two rows with one callsign. It stands at the later of them.
func twoNames(a, b *plan.Operator) review.Finding {
	f := review.Finding{
		About: []plan.Thing{a.Thing(), b.Thing()}, Values: []string{a.Callsign.V.String()},
		Why:    "a radio shows this name and callsign for whoever speaks with the radio ID of the row, and a private call goes there; in a row that was copied one of the three is still another person's",
		Fix:    "look up whose callsign it is, and correct the row of the other; if they are one person, or a club, accept the finding with that reason",
		Source: "common practice, no source: a callsign is assigned to one licensee",
	}
	if b.Place().Compare(a.Place()) < 0 {
		a, b = b, a
	}
	f.At = b.Callsign.At
	f.What = fmt.Sprintf("the callsign %s stands under the names %s and %s", a.Callsign.V, a.Person.V, b.Person.V)
	f.Also = []review.Related{{At: a.Callsign.At, Text: a.Person.V + " has it here"}}
	return f
}
