package rf

import (
	"cmp"
	"slices"

	"passband.example/plandiff/signal"
)

// A sum is a whole of two transmitters, and what it is made of.
type sum struct {
	hz   signal.Hertz
	a, b uint16 // places in mixer.tx
}

// sums are sums from the lowest up, with an index: where in the list each of as many equal steps
// of frequency begins. A look-up goes straight to its step, which holds a sum or two.
type sums struct {
	list  []sum
	first []int32 // by step
	shift int     // a step is 2^shift Hz
}

func newSums(list []sum) sums {
	slices.SortFunc(list, func(a, b sum) int { return cmp.Compare(a.hz, b.hz) })
	s := sums{list: list}
	if len(list) == 0 {
		return s
	}
	span := list[len(list)-1].hz - list[0].hz
	for span>>s.shift >= signal.Hertz(len(list)) {
		s.shift++
	}
	s.first = make([]int32, span>>s.shift+1)
	for i := len(list) - 1; i >= 0; i-- {
		s.first[s.step(list[i].hz)] = int32(i)
	}
	for k := len(s.first) - 2; k >= 0; k-- { // a step without a sum begins where the next one does
		if s.first[k] == 0 && k > 0 {
			s.first[k] = s.first[k+1]
		}
	}
	return s
}

func (s *sums) step(hz signal.Hertz) int { return int((hz - s.list[0].hz) >> s.shift) }

// within returns the sums from middle-width to middle+width.
func (s *sums) within(middle, width signal.Hertz) []sum {
	low, high := middle-width, middle+width
	n := len(s.list)
	if n == 0 || high < s.list[0].hz || low > s.list[n-1].hz {
		return nil
	}
	from := 0
	if low > s.list[0].hz {
		from = int(s.first[s.step(low)])
	}
	for from < n && s.list[from].hz < low {
		from++
	}
	to := from
	for to < n && s.list[to].hz <= high {
		to++
	}
	return s.list[from:to]
}
