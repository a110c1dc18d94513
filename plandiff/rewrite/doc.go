// Package rewrite carries changes into the text of a plan: only the bytes of what
// changed are other bytes afterwards. Comments, order, blank lines, quotes and the
// spelling of numbers stay as their author wrote them.
//
//	changes := plandiff.Compare(old, new).Changes
//	texts, err := rewrite.Apply(files, old.Plan, changes)
//	// texts holds the files that are different now, whole
//
// # What happens to the text
//
// A changed value takes the place of the old one, in its quotes where they still
// serve. An item of a list that comes, goes or moves takes the comment on its line
// and the one directly above it along. A field that comes stands where the model
// has it, in the style of its record: between braces or on a line of its own. A
// record that comes stands behind the last of its section, or where its key belongs
// if the section is sorted, and looks like its neighbor; one that goes takes the
// comment directly above it along, unless that is a heading: one above the first of
// several one-line records without comments of their own. A new key is written
// wherever the old one was referred to. A repeater that moves keeps its split where
// the new input follows from it.
//
// # What cannot be done
//
// A value with an anchor (&), or one that repeats another (*), is not changed: what
// else it would change is for a person to decide. The error is an *Unsafe, which
// names the place and what to do by hand.
//
// # Certainty
//
// Apply reads what it wrote and compares it with plandiff.Apply of the same
// changes. Where the two differ it gives an error and no text.
//
// Tidy gives a plan one layout; see there.
package rewrite
