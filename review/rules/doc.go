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
package rules
