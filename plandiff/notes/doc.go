// Package notes says what members must know between two releases of a plan, in
// the words that they see on their radios.
//
//	n := notes.Of(plandiff.Compare(before, after))
//	for _, r := range n.Radios {
//		fmt.Println(r.Label, r.Why) // why this class of radio must be loaded again
//	}
//
// # What is told
//
// Which classes of radio must be loaded again, and why. The channels that are new,
// gone, or set differently, with the old and the new value; channels with the same
// differences stand together, and where it is all that a repeater has, the
// repeater is named. Channels with another label. Zones and scan lists that hold
// other channels, or the same in another order. Messages and number keys. How
// many contacts came and went.
//
// # What is not told
//
// What is the club's own business: keys, files, commits and who made them, notes,
// sites, limits, policy. Of operators only how many came and went, because a
// release note may stand on a public page and a radio ID leads to a person; a
// number key that calls one is told by the callsign, which its owner sends on the
// air anyway. Channels that no class of radio holds are no member's channels; where
// the plan names no radios, all are.
//
// A thing without a label is called by its key, which is also what a radio shows.
package notes
