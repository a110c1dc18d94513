// Bench measures passband against git and against general structural diff libraries,
// on plans of package generate, and writes what it found with the machine's description as
// Markdown:
//
//	cd plandiff/bench && go run . > results.md
//	go run . -rounds 3 -largest 10000        # a quick look
//
// It is a module of its own, so that the libraries it compares with are no part of
// passband. It needs git, a C-less Go and some minutes of a machine that does nothing else.
//
// # Method
//
// Each row runs both sides in turns, A B A B, after a turn that does not count; the
// ratio is the median of the turns' ratios, so that what slows both does not show. Whole
// processes are timed from start to end, with what they print thrown away, and their
// peak memory is that of the kernel (getrusage). In-process rows begin with the bytes in memory and
// a collected heap. Only ratios carry to another machine. The ratio of processor time is
// told besides, as on a busy machine it is steadier than that of the clock.
//
// The plan and its second revision are those of generate.New(Size{Channels: n}, 1) and Revise:
// a field of one written channel in a hundred changed, one in 500 each added, removed, renamed
// and moved in its zone.
package main
