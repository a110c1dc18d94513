// Package merge puts together what two people made of one plan: three-way, by
// record and field, keeping what each of them wrote as they wrote it.
//
//	r, err := merge.Plans(base, ours, theirs, merge.Labels{})
//	for _, c := range r.Conflicts {
//		fmt.Println(c) // both sides in words
//	}
//	// r.Files holds the merged plan, r.After what the two made only together
//
// # What merges
//
// Different records; different fields of one record; one list, in which each side
// added, removed and moved items; a new order on one side and an edit on the
// other; a new key on one side and an edit, or new references, on the other; the
// same edit on both. Comments, order, blank lines and spelling come from the side
// that changed them.
//
// # What does not
//
// One field with two new values, a record removed on one side and edited on the
// other, one record with two new keys, items of one list moved so that no order
// serves both. Frequencies belong together: output, split and input of a repeater,
// and what a channel sends and hears on, are taken from one side whole, so that no
// merge makes a frequency that nobody wrote. The file then holds the lines of both
// sides between the marks that git uses, as few lines as can be.
//
// An item that one side removed and the other moved is removed. Both sides adding
// the same item add it once, where ours has it.
//
// # How it is done
//
// The plans are merged first, as plans: that says what the result must mean. Then
// the texts are merged, as trees of keys and items. What was written is read again
// and compared with the merged plan; where it differs, package rewrite carries the
// difference in. So no text is given out that means something else.
//
// The work follows from what differs: of ours, theirs and the merged text only the
// records are read that are other ones than in the version before, and a record's
// text is looked into only where all three differ. The merged plan is worked out into
// channels only where both sides together can have broken a reference, or where a
// radio states a limit.
//
// # What only both together do
//
// Two groups with one ID, a reference to what the other side removed, a memory
// limit that each side alone keeps: these merge without a conflict and are wrong.
// Result.After tells them. The check of the merged plan, with all rules, is the
// business of package review.
//
// # One file of a plan
//
// File merges one file without the others, as git's merge driver must where the
// rest is not at hand. References to other files are not looked at.
package merge
