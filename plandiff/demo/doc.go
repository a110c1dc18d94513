// Package demo is the plan of an invented club, with its history, for trying
// passband on a fresh machine and for testing it.
//
// # What it holds
//
// The Harrow Valley Repeater Group has 22 repeaters, FM and DMR, a bit over 140
// channels, 42 operators and three classes of radio. Its plan grew in eleven commits
// on the branch [Main], among them a retuned repeater, a renamed key, a moved channel
// and a change of layout that changes nothing on the air. The releases
// [FirstRelease] and [SecondRelease] are annotated tags.
//
// The branch [Proposal] left main two commits before its end. A new member wants to
// add four repeaters, and makes the mistakes that people make:
//
//   - a repeater output ten megahertz off, so that it and its input leave the band
//   - an input so near the edge of the band that wide FM spills over it
//   - a split with the wrong sign, on a repeater that was right
//   - two groups with one number
//   - one group on both slots of a repeater
//   - a zone entry that names a group which does not exist
//   - a radio ID that belongs to somebody else
//   - a label so long that six channels look the same on a pocket radio
//   - more channels in a zone than a pocket radio holds, by way of a wildcard
//   - a DMR repeater on the pair of a neighbor within earshot, with that neighbor's color code
//
// Beside these stand changes that are in order, as in any honest proposal.
//
// The tip of main is meant to be a plan about which no check has more to say than one note, that
// of a pair which the coordinator has agreed to. Every
// commit of main loads, but the first four have labels that a pocket radio cuts; the fifth
// mends them.
//
// # Nothing here is real
//
// Callsigns have a suffix from QRA to QUZ, which ITU Radio Regulations 19.48 keeps out
// of call signs. Radio IDs and groups begin with 999, the mobile country code that
// ITU-T E.212 keeps for internal use. Nobody may transmit from this plan: the license
// holder answers for every transmission.
//
// # How it is kept
//
// The folder data holds one folder a commit, in the order in which they were made. Each has
// a commit.txt, written like a letter, and the full new text of every file that the
// commit adds or changes:
//
//	From: Lena Marrow <lena@example.org>
//	Date: Sun, 01 Feb 2026 19:15:00 -0700
//	Branch: main
//	Tag: 2026.1
//
//	Add the storm group and put it on six repeaters
//
// The first commit of a branch grows from the commit of main before it in the folder.
// To correct a value in all of history, change it in each copy of its file.
//
// # What it does not do
//
// No commit removes a file or makes a folder, and none is a merge.
package demo
