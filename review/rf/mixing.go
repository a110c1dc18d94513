package rf

import (
	"cmp"
	"fmt"
	"slices"

	"passband.example/plandiff/signal"
)

// Receiver is a frequency that is listened to at a site.
type Receiver struct {
	Frequency signal.Hertz
	Bandwidth signal.Hertz // a product within half of it counts as a hit; 0 takes UsualBandwidth
}

// UsualBandwidth is the width around a receive frequency within which products count: 15 kHz
// below 300 MHz and 25 kHz above (common practice, no source).
func UsualBandwidth(f signal.Hertz) signal.Hertz {
	if f < 300_000_000 {
		return 15_000
	}
	return 25_000
}

// Form is the formula of a product. A, B and C are different transmitters.
type Form uint8

// The forms, from the strongest kind to the weakest. Products of even order, and sums such as
// A+B+C, fall far outside the band and are left out; so is all above fifth order.
const (
	TwoAMinusB         Form = iota // third order, two transmitters
	APlusBMinusC                   // third order, three
	SecondHarmonic                 // 2A
	ThirdHarmonic                  // 3A
	ThreeAMinusTwoB                // fifth order, two
	ThreeAMinusBMinusC             // fifth order, three
	TwoAPlusBMinusTwoC             // fifth order, three
)

// shape is the order of a form, and how often it takes A, B and C.
var shapes = [...]struct {
	order int
	times [3]int64
}{
	{3, [3]int64{2, -1}},
	{3, [3]int64{1, 1, -1}},
	{2, [3]int64{2}},
	{3, [3]int64{3}},
	{5, [3]int64{3, -2}},
	{5, [3]int64{3, -1, -1}},
	{5, [3]int64{2, 1, -2}},
}

// Order returns the order of a product: 3 or 5, or the number of a harmonic.
func (f Form) Order() int { return shapes[f].order }

// Harmonic tells whether it is one transmitter's harmonic and not a mixture.
func (f Form) Harmonic() bool { return f == SecondHarmonic || f == ThirdHarmonic }

// Product is a mixture of transmitters of a site that falls on one of its receivers.
type Product struct {
	Form      Form
	Of        [3]int       // indexes of the transmitters A, B and C; -1 where the form has none
	Frequency signal.Hertz // of the product
	Receiver  int          // index of the receiver that it falls on
	Off       signal.Hertz // product minus receive frequency
}

// Formula writes a product out with its frequencies in MHz: 2 x 146.940 - 147.330 = 146.550.
func (p Product) Formula(transmit []signal.Hertz) string {
	text := ""
	for k, times := range shapes[p.Form].times {
		if times == 0 {
			break
		}
		sign := " + "
		if times < 0 {
			sign, times = " - ", -times
		}
		if k == 0 {
			sign = ""
		}
		factor := ""
		if times > 1 {
			factor = fmt.Sprintf("%d x ", times)
		}
		text += sign + factor + transmit[p.Of[k]].String()
	}
	return text + " = " + p.Frequency.String()
}

// compareProducts puts the strongest kind first, then what falls nearest to the middle of the
// receiver.
func compareProducts(a, b Product) int {
	return cmp.Or(
		cmp.Compare(a.Form, b.Form),
		cmp.Compare(max(a.Off, -a.Off), max(b.Off, -b.Off)),
		cmp.Compare(a.Receiver, b.Receiver),
		slices.Compare(a.Of[:], b.Of[:]),
	)
}
