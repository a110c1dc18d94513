// Package plandiff tells what changed from one plan to another, as a person
// would say it, and what each change does to the channels, zones and radios of
// members.
//
//	old := plan.Expand(before)
//	new := plan.Expand(after)
//	c := plandiff.Compare(old, new)
//	for _, cause := range c.Causes {
//		fmt.Println(cause.Thing, len(cause.Changes), "changes,", len(cause.Reach.Channels), "channels")
//	}
//
// # What is a change
//
// Records are matched by their keys. What is left over is matched by what the new
// plan states (was), by what it is on the air, and then by likeness, so that the sum
// of all differences is least: a repeater with a new key is one change, and everything
// that refers to it by the new key is none. Two spellings of one signal are no change:
// 443.4 and 443.400, a split and the input that it gives, a DCS code and its inverted twin.
// The order of a list means something, and an item that moved is one step, with as
// few steps as there can be; the order of keys means nothing, nor does the file
// that a record stands in.
//
// Every change has a weight: Air where a radio will transmit or listen
// differently, Layout for zones, lists and their order, Label for names and notes,
// Policy for what is judged.
//
// # Causes and effects
//
// The record that somebody edited is the cause. Both plans are expanded, and
// every channel that behaves differently is filed under the records whose
// changes made it so; then the zones and scan lists that hold such channels, and
// the classes of radio that carry them.
//
// # Applying
//
// Apply makes the new plan from the old one and the changes, for every pair of
// plans; Invert gives the changes that lead back.
//
// The package does not judge, and does not read git: see packages review and
// history.
package plandiff
