package generate

import (
	"fmt"
	"math/rand/v2"

	"passband.example/plandiff/signal"
)

type group struct {
	key, label string
	id         int
}

func (g *group) String() string { return g.key }

type repeater struct {
	key, label, callsign string
	output               signal.Hertz
	color                int
	slots                [2][]*group
	lat, lon             string
	comment              bool
	sheet                *sheet
}

// retune draws another output. The input lies 5 MHz above.
func (r *repeater) retune(random *rand.Rand) {
	for before := r.output; r.output == before; {
		r.output = 442_050_000 + 12_500*signal.Hertz(random.IntN(236))
	}
}

// steps of 12.5 kHz lie between 445 and 447 MHz, where no repeater of the plan listens,
// without the calling frequency, 446 MHz, and those beside it.
const steps = 156

// A channel is simplex. Its number makes it FM or DMR, with a tone or a group
// of its own among the channels of its frequency.
type channel struct {
	key, label, power string
	number, step      int
	comment           bool
	sheet             *sheet
}

func (ch *channel) frequency() signal.Hertz {
	f := 445_000_000 + 12_500*signal.Hertz(ch.step)
	if f >= 445_987_500 {
		f += 37_500
	}
	return f
}

// tones are CTCSS frequencies of EIA/TIA-603, the 38 that most radios have.
var tones = [...]string{
	"67.0", "71.9", "74.4", "77.0", "79.7", "82.5", "85.4", "88.5", "91.5", "94.8", "97.4", "100.0", "103.5",
	"107.2", "110.9", "114.8", "118.8", "123.0", "127.3", "131.8", "136.5", "141.3", "146.2", "151.4", "156.7",
	"162.2", "167.9", "173.8", "179.9", "186.2", "192.8", "203.5", "210.7", "218.1", "225.7", "233.6", "241.8", "250.3",
}

// mode gives the side of the channel, FM as long as there are tones and then DMR.
func (ch *channel) mode(groups []*group) (key, value string) {
	n := ch.number / steps
	if n%2 == 0 && n/2 < len(tones) {
		return "fm", "tone: " + tones[n/2]
	}
	g := groups[n/15%len(groups)]
	return "dmr", fmt.Sprintf("color_code: %d, slot: %d, group: %s", n%15, 1+n/15/len(groups)%2, g.key)
}

type zone struct {
	key, label string
	members    []member
	comment    bool
	sheet      *sheet
}

// A member of a zone is a channel, or a path of a repeater.
type member struct {
	channel  *channel
	repeater *repeater
	path     string
}

func (m member) String() string {
	if m.repeater != nil {
		return m.repeater.key + "/" + m.path
	}
	return m.channel.key
}

type operator struct {
	id             int
	callsign, name string
}
