package plantest

import "passband.example/plandiff/generate"

// Text writes a plan with so many channels in one file, for measuring: see package
// generate. The same seed gives the same text; a seed changes the values and no count.
func Text(channels int, seed uint64) map[string][]byte {
	return generate.New(generate.Size{Channels: channels}, seed).Files()
}
