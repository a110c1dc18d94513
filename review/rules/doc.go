// Package rules holds the rules that passband judges plans by: one file a rule,
// its page beside it, its cases in testdata/ID.
//
// To add a rule, write three things and one line:
//
//   - off_band.go: a variable of type review.Rule and its run function
//   - off_band.md: its page, in the form that review.ParsePage reads; its two
//     examples are run by the tests
//   - testdata/off-band/*.txtar: plans with "# want off-band "regexp"" on each line
//     that must be found, and lines that must stay silent
//   - its name in the list of All
//
// A rule looks at one expanded plan. It reports each cause once, at the line that
// a person would edit, names the records in About and the offending values in
// Values, and says nothing of a value that loading has already called bad.
//
// # Mends
//
// Where a machine can tell what was meant, a finding has a Mend: the edit that removes
// it, as changes of fields. The functions mend and mendItem make one:
//
//	f.Mend = mend(repeater, "fm.tone.send", "177.3")                          // a field
//	f.Mend = mendItem(zone, entry.At, func(string) []string { return nil })   // an item of a list, here taken out
//
// "passband check --fix" writes it, after it has checked that the finding goes and
// none as severe comes. A mend is for a slip whose right form follows from the plan or a table.
// There is none where two things may be meant, and none that puts anybody on another
// frequency unless the table leaves one choice: the coordinator and the license holder
// decide. To let a rule offer one, set the field and add a line to TestMend.
//
// # Rules about stations on the air
//
// Which stations stand too near to each other, and what they mix to, is found once for all rules
// (surveyOf, by package survey). Each conflict is told by one rule (conflictRule): one that a coordinator
// remarked on by coordinated, one that a locator leaves open by place-too-coarse, once a plan. They warn
// or note and never block, and name both parties, both distances and the row of the table with its
// source. Their severity and acceptance are those of any rule. What a change cannot do for itself:
// separation rows are the base's, and rows that it takes out of the neighbor list count for it. A remark
// that comes with the change makes a note, which says so.
//
// # Rules of the law
//
// What a plan puts on the air is worked out once for all rules (lawOf): what members
// send, what repeaters send and hear. A transmission that the law denies has one cause,
// and each cause one rule: off-band, class-not-entitled, emission-not-allowed,
// other-service, band-plan-law. What depends on the place, the power or the kind of
// station has rules of its own, which are silent where the transmission is denied anyway;
// so are those of the band plan. A transmission on a channel of another service is told by
// other-service alone, unless it is in an amateur band and only reaches out of it.
//
// The corpus in testdata/law was written from the texts of the regulations; a change of a
// rule must leave its precision and recall at one.
package rules
