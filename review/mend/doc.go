// Package mend carries the mends of findings into the text of a plan, where they do
// what they are there for.
//
//	r, err := mend.Plan(ctx, rules.All(), files, today)
//	for _, done := range r.Done { ... }     // what is mended
//	for name, text := range r.Files { ... } // the files that are different now, whole
//
// # Certainty
//
// Each mend is carried into the text by package rewrite, which keeps comments and
// layout; the new text is read and judged as a change. It counts only where its
// finding is gone by that, and no other has come that is as severe. Milder ones that
// came with it are told beside it. What is left is told with the reason, and is for a
// person. Two mends of one field are never carried together.
//
// A finding that the club accepts is not mended, and nothing of a plan is that could
// not be read in full.
//
// Plan writes no file.
package mend
