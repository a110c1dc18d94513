package rf

import (
	"cmp"
	"fmt"
	"slices"

	"passband.example/plandiff/signal"
)

// Limits of Mixing. A site of more transmitters is no repeater site, and its products would
// fall everywhere.
const (
	MostTransmitters = 256
	MostReceivers    = 1_024
	MostProducts     = 200 // listed; the others are counted
)

// Mix is what Mixing finds.
type Mix struct {
	Products []Product // the strongest kinds first
	HeldBack int       // how many more there are, past MostProducts
}

// Mixing finds the products of third and fifth order of two and three transmitters of one site, and
// the second and third harmonic of each, that fall on a receiver of the site. Equal
// transmit frequencies count once, under the first index. A harmonic is as much wider as its
// number says, and so is the width within which it counts. A product is wider than one
// signal too, so a near miss can still be heard.
//
// The frequencies are exact integers. The search goes through sorted sums, so it takes time in
// proportion to transmitters squared plus transmitters x receivers, and to the hits. More
// than MostTransmitters or MostReceivers are an error.
func Mixing(transmit []signal.Hertz, receive []Receiver) (Mix, error) {
	if len(transmit) > MostTransmitters || len(receive) > MostReceivers {
		return Mix{}, fmt.Errorf("a site of %d transmitters and %d receivers is too large to look for mixing products; at most %d and %d are looked at, so check that the stations do share one site",
			len(transmit), len(receive), MostTransmitters, MostReceivers)
	}
	return newMixer(transmit).mix(receive), nil
}

func (m *mixer) mix(receive []Receiver) (mix Mix) {
	for i, r := range receive {
		if r.Frequency.IsFrequency() {
			m.receiver(i, r)
		}
	}
	mix.Products, mix.HeldBack = m.hits.done()
	return mix
}

// A mixer holds the transmitters of a site, and sums of them.
type mixer struct {
	tx     []transmitter
	pairs  sums // A+B, each pair once, A+A too
	triple sums // 2A+B, A other than B
	hits   worst[Product]
	wanted func(Product) bool // nil: every product
}

type transmitter struct {
	hz    signal.Hertz
	index int // in the caller's list
}

func newMixer(transmit []signal.Hertz) *mixer {
	m := &mixer{hits: worst[Product]{keep: MostProducts, compare: compareProducts}}
	for i, f := range transmit {
		if f.IsFrequency() {
			m.tx = append(m.tx, transmitter{f, i})
		}
	}
	slices.SortStableFunc(m.tx, func(a, b transmitter) int { return cmp.Compare(a.hz, b.hz) })
	m.tx = slices.CompactFunc(m.tx, func(a, b transmitter) bool { return a.hz == b.hz })
	var pairs, triple []sum
	for a := range m.tx {
		for b := range m.tx {
			if a <= b {
				pairs = append(pairs, sum{m.tx[a].hz + m.tx[b].hz, uint16(a), uint16(b)})
			}
			if a != b {
				triple = append(triple, sum{2*m.tx[a].hz + m.tx[b].hz, uint16(a), uint16(b)})
			}
		}
	}
	m.pairs, m.triple = newSums(pairs), newSums(triple)
	return m
}

// receiver finds everything that falls on one receiver. Each form is turned so that one
// transmitter and the receiver say where the sum of the others must lie.
func (m *mixer) receiver(i int, r Receiver) {
	width := r.Bandwidth
	if width <= 0 {
		width = UsualBandwidth(r.Frequency)
	}
	width = min(width, widestReceiver) / 2
	for x, t := range m.tx {
		m.harmonics(i, r, x, width)
		for _, s := range m.pairs.within(r.Frequency+t.hz, width) { // A+B = R+C
			m.third(i, r, s, x)
		}
		for _, s := range m.pairs.within(3*t.hz-r.Frequency, width) { // B+C = 3A-R
			m.fifth(i, r, s, x)
		}
		for _, s := range m.triple.within(r.Frequency+2*t.hz, width) { // 2A+B = R+2C
			if int(s.a) != x && int(s.b) != x {
				m.hit(i, r, TwoAPlusBMinusTwoC, int(s.a), int(s.b), x)
			}
		}
	}
}

const widestReceiver = 1_000_000 // Hz; keeps a slip of the unit from calling everything a hit

func (m *mixer) harmonics(i int, r Receiver, x int, width signal.Hertz) {
	for _, form := range []Form{SecondHarmonic, ThirdHarmonic} {
		order := signal.Hertz(form.Order())
		if distant(order*m.tx[x].hz, r.Frequency) <= order*width {
			m.hit(i, r, form, x)
		}
	}
}

// third takes x from a sum of two.
func (m *mixer) third(i int, r Receiver, s sum, x int) {
	switch a, b := int(s.a), int(s.b); {
	case a == x || b == x: // C cancels
	case a == b:
		m.hit(i, r, TwoAMinusB, a, x)
	default:
		m.hit(i, r, APlusBMinusC, a, b, x)
	}
}

// fifth takes a sum of two from three times x.
func (m *mixer) fifth(i int, r Receiver, s sum, x int) {
	switch b, c := int(s.a), int(s.b); {
	case b == x || c == x: // a third-order product again, or A itself
	case b == c:
		m.hit(i, r, ThreeAMinusTwoB, x, b)
	default:
		m.hit(i, r, ThreeAMinusBMinusC, x, b, c)
	}
}

// hit adds a product of the transmitters at the given places.
func (m *mixer) hit(i int, r Receiver, form Form, of ...int) {
	p := Product{Form: form, Of: [3]int{-1, -1, -1}, Receiver: i}
	for k, x := range of {
		p.Of[k] = m.tx[x].index
		p.Frequency += signal.Hertz(shapes[form].times[k]) * m.tx[x].hz
	}
	p.Off = p.Frequency - r.Frequency
	if m.wanted == nil || m.wanted(p) {
		m.hits.add(p)
	}
}
