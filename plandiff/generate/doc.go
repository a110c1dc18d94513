// Package generate makes plans of any size, and the history of one, for measuring
// and attacking the program.
//
//	club := generate.New(generate.Size{Channels: 10_000, Operators: 500, Files: 40}, 1)
//	before := club.Files()
//	subject := club.Edit()         // "retune r00017"
//	after := club.Files()
//
// The same size and seed give the same bytes, on every machine. A plan that was made
// and whatever Edit makes of it are read without a problem and judged without a block.
//
// # Shape
//
// Half of the channels are written one a line, FM and DMR simplex in turn; the others follow from
// repeaters with an FM side and 19 talkgroups each. There are up to 4,000 groups, a
// zone for every 14 written channels with two talk paths more, and a comment at one record in
// 40. That is 71 bytes a channel, and more than any club has of everything.
//
// Frequencies keep to the parts of the 70 cm band where the plan of the United States
// has repeaters (442 to 445 MHz, members sending 5 MHz above) and simplex (445 to
// 447 MHz); callsigns are of forms that are never assigned, and sites lie at random
// between 34 and 41 degrees north.
//
// # History
//
// History writes a stream for git-fast-import(1) of one edit a commit: fields changed,
// channels added, removed and moved to other files, keys renamed with all that refers to them,
// zone members moved, text laid out anew. Five thousand commits take a second:
//
//	go run ./plandiff/generate/write -channels 10000 -files 40 -commits 5000 club
//
// # What it does not do
//
// It does not make plans that are wrong; package plantest draws those, small and with
// every kind of record, for property tests.
package generate
