package rules

import (
	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"passband.example/review"
)

// A tuned is a frequency as a plan writes it, or the input that a split leads to.
type tuned struct {
	by     plan.Thing
	key    string // of the record: output, input, split, simplex, receive
	on     signal.Hertz
	at     plan.Place
	listen bool // nobody of the plan transmits there
}

// tunedFrequencies gives the frequencies of a plan that could be read, worked out once for
// all rules.
func tunedFrequencies(p *review.Pass) []tuned {
	type key struct{}
	return review.Once(p, key{}, func() []tuned { return tunedIn(p.Plan) })
}

func tunedIn(p *plan.Plan) []tuned {
	all := make([]tuned, 0, 2*p.Repeaters.Len()+p.Channels.Len())
	add := func(by plan.Thing, key string, f *plan.Value[signal.Hertz], listen bool) {
		if f.IsSet() {
			all = append(all, tuned{by, key, f.V, f.At, listen})
		}
	}
	for _, r := range p.Repeaters.Sorted() {
		add(r.Thing(), "output", &r.Output, false)
		add(r.Thing(), "input", &r.Input, false)
		if on := r.TransmitOn(); on != 0 && !r.Input.Written() {
			add(r.Thing(), "split", &plan.Value[signal.Hertz]{V: on, At: r.Split.At}, false)
		}
	}
	for _, c := range p.Channels.Sorted() {
		add(c.Thing(), "simplex", &c.Simplex, !c.Transmit.Or(true))
		add(c.Thing(), "receive", &c.Receive, true)
	}
	return all
}

// onGrid tells whether a frequency is one of a channel step that is in use anywhere: a multiple
// of 2.5 or 6.25 kHz. Steps of 5, 7.5, 10, 12.5, 15, 20, 25 and 30 kHz are multiples of these.
func onGrid(f signal.Hertz) bool { return f%2_500 == 0 || f%6_250 == 0 }

// fractions are the ends that people leave out or round, in the order in which they are
// likely: 443.00625 as 443.0062, 443.006 or 443.01.
var fractions = [...]signal.Hertz{50, 250, 500, 750}

// uncut gives the frequency whose last decimals were likely left out or rounded away, or zero.
// Source: worked out from the decimals that the steps need; 12.5 kHz needs four of MHz and
// 6.25 kHz five.
func uncut(f signal.Hertz) signal.Hertz {
	if f%1_250 == 0 {
		return 0
	}
	for _, step := range [...]signal.Hertz{2_500, 6_250} {
		for _, end := range fractions {
			for _, meant := range [...]signal.Hertz{f + end, f - end} {
				if meant%step == 0 {
					return meant
				}
			}
		}
	}
	return 0
}

// nearestOf gives the multiple of a step that is nearest to a frequency.
func nearestOf(f, step signal.Hertz) signal.Hertz { return (f + step/2) / step * step }

// nearestStep gives the nearest frequency on any channel step in use: a multiple of
// 2.5 or of 6.25 kHz.
func nearestStep(f signal.Hertz) signal.Hertz {
	a, b := nearestOf(f, 2_500), nearestOf(f, 6_250)
	if distance(b, f) < distance(a, f) {
		return b
	}
	return a
}

func distance(a, b signal.Hertz) signal.Hertz { return max(a-b, b-a) }
