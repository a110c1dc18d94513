package rf

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"passband.example/plandiff/signal"
)

// A planting is a list of stations in which it is known who is too near to whom: pairs are set
// at a known distance and a known spacing, each pair 40 channels and 500 km away from the next.
type planting struct {
	stations []Station
	short    map[string]bool // nearer than the table asks
	far      int             // pairs that are farther, as decoys
}

// plant sets pairs at 0.1 to 1.9 times the distance that the table asks, so that about half are too near.
func plant(table *Table, pairs int, seed uint64) planting {
	r := rand.New(rand.NewPCG(seed, 1))
	p := planting{short: map[string]bool{}}
	for k := range pairs {
		lat, lon := 30+5*float64(k%4), -120+6*float64(k/4%10)
		output := 440_000_000 + 500_000*signal.Hertz(k/40%10)
		a := Station{Name: fmt.Sprint(k, "a"), Ours: true, Place: degreesAt(lat, lon), Output: output, Input: output + 5_000_000, FM: true}
		b := a
		b.Name, b.Ours = fmt.Sprint(k, "b"), r.IntN(2) == 0
		kind := Kind(r.IntN(3))
		switch kind {
		case Adjacent:
			b.Output += 12_500 * signal.Hertz(1+r.IntN(3))
			b.Input = b.Output + 5_000_000
		case Crossed:
			b.Output, b.Input = a.Input, a.Input+7_600_000-20_000 // its output on a's input, its input elsewhere
		}
		row, _ := table.Required(a.Output, (b.Output-a.Output)%5_000_000, &a, &b)
		share := 0.1 + 1.8*r.Float64()
		if share > 0.999 && share < 1.001 {
			share = 1.1 // a micro-degree must not decide
		}
		lat2, lon2 := direct(lat, lon, 360*r.Float64(), share*row.RequiredM)
		b.Place = degreesAt(lat2, lon2)
		i := len(p.stations)
		p.stations = append(p.stations, a, b)
		if share < 1 {
			p.short[fmt.Sprint(kind, i, i+1)] = true
		} else {
			p.far++
		}
	}
	return p
}

// Precision and recall over planted conflicts: every pair that was set too near is found, with its kind,
// and no other.
func TestPlantedConflicts(t *testing.T) {
	table := Separations("US", nil)
	for seed := range uint64(5) {
		p := plant(table, 400, seed)
		hits, surplus := 0, 0
		for _, c := range table.Review(p.stations).Conflicts {
			switch {
			case c.Short != Yes:
			case p.short[fmt.Sprint(c.Kind, c.A, c.B)]:
				hits++
			default:
				surplus++
				t.Errorf("%+v was not planted", c)
			}
		}
		precision, recall := float64(hits)/float64(hits+surplus), float64(hits)/float64(len(p.short))
		t.Logf("%d pairs too near, %d decoys: precision %.3f, recall %.3f", len(p.short), p.far, precision, recall)
		if precision < 1 || recall < 1 || len(p.short) < 100 || p.far < 100 {
			t.Errorf("precision %v, recall %v", precision, recall)
		}
	}
}

// A place that is known only as a locator never gives a wrong yes or no: where the true places decide
// one way, the answer is that or none.
func TestPlantedLocators(t *testing.T) {
	table := Separations("US", nil)
	p := plant(table, 400, 9)
	blurred := make([]Station, len(p.stations))
	r := rand.New(rand.NewPCG(3, 3))
	for i, s := range p.stations {
		place := PlaceOf(signal.GridOf(s.Place.At, 4+2*r.IntN(2)))
		s.Place = &place
		blurred[i] = s
	}
	counts := map[Answer]int{}
	for _, c := range table.Review(blurred).Conflicts {
		if c.A/2 != c.B/2 {
			continue // two pairs that only their squares bring near
		}
		truth := Geodesic(p.stations[c.A].Place.At, p.stations[c.B].Place.At).Meters < c.Row.RequiredM
		counts[c.Short]++
		if c.Short == Yes && !truth || c.Short == No && truth {
			t.Errorf("%+v; truth %v", c, truth)
		}
	}
	t.Logf("yes %d, cannot tell %d, no %d", counts[Yes], counts[CannotTell], counts[No])
	if counts[CannotTell] == 0 || counts[Yes] == 0 {
		t.Error("the test decides nothing")
	}
}
