// Package review judges plans: what is wrong, where, why it matters and what to
// do about it.
//
//	x := plan.Expand(p)
//	v, err := review.Check(ctx, rules.All(), x, today)                // one plan
//	v, err := review.Judge(ctx, rules.All(), comparison, base, today) // a change
//
// # Rules and findings
//
// A Rule is a value with an ID, a default Severity, a page that explains it and a
// function that looks at an expanded plan. Package review/rules holds them, one a
// file. A Finding says what is wrong, where, and what it rests on. Block means
// that it must not reach members; Warn that it is probably wrong and a person
// decides; Note that it is worth knowing.
//
// # Policy
//
// A club sets the severity of a rule, and accepts a finding with a reason and an
// end date, in the section review of its plan. A change is judged by the policy of
// the plan it would go into, as that stands now; a change of policy is itself a
// finding. A rule that is
// newer than the plan's edition says at most Warn, so that a newer program never
// blocks a club that changed nothing.
//
// # Identity
//
// A finding is the same in two revisions if its rule, the records it is about
// and the values that make it wrong are: not its line, its wording or the order of
// the file, and a record that was renamed is still the same record. So a change is
// blamed only for what it brings.
//
// # Mends
//
// Where a machine can tell what was meant, a finding has a Mend: the changes of fields
// that remove it. Package review/mend carries them into the text of a plan.
//
// # What a verdict rests on
//
// Findings name their source. A verdict is help for the license holder, who
// answers for every transmission; the frequency coordinator and local law have the
// last word.
package review
