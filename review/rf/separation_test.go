package rf

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// bruteForce is the oracle of Review: every pair, every way in which their frequencies meet, exact
// distances; of each two ways the one that more is asked of, then the nearer, then the first.
func bruteForce(t *Table, stations []Station) map[string]bool {
	all := map[string]bool{}
	for i := range stations {
		for j := range stations {
			a, b := &stations[i], &stations[j]
			if i == j || a.Place == nil || b.Place == nil || !a.Ours || b.Ours && j < i {
				continue
			}
			beside := []way{{CoChannel, a.Output, b.Output, false}, {CoChannel, a.Input, b.Input, false}}
			crossed := []way{{Crossed, a.Output, b.Input, true}, {Crossed, b.Output, a.Input, false}}
			for _, ways := range [][]way{beside, crossed} {
				worst, kind, row := ways[0], Kind(0), (*Row)(nil)
				for _, w := range ways {
					k, r := w.asks(t, a, b)
					if r != nil && (row == nil || r.RequiredM > row.RequiredM || r.RequiredM == row.RequiredM && distant(w.f, w.g) < distant(worst.f, worst.g)) {
						worst, kind, row = w, k, r
					}
				}
				if row != nil && Distance(*a.Place, *b.Place).Least < NoteFactor*row.RequiredM && !a.is(b) {
					all[fmt.Sprint(kind, i, j, distant(worst.f, worst.g), worst.outgoing)] = true
				}
			}
		}
	}
	return all
}

// A way is two frequencies of two stations that meet.
type way struct {
	kind     Kind
	f, g     signal.Hertz
	outgoing bool
}

// asks returns the row for a way, nil where it asks nothing, and what a conflict of it is.
func (w way) asks(t *Table, a, b *Station) (Kind, *Row) {
	if w.f == 0 || w.g == 0 {
		return 0, nil
	}
	row, ok := t.Required(w.f, distant(w.f, w.g), a, b)
	if !ok || row.RequiredM == 0 {
		return 0, nil
	}
	one, _ := t.Required(w.f, 0, a, b)
	switch alike := row.RequiredM >= one.RequiredM; {
	case w.kind == Crossed && !alike:
		return 0, nil
	case w.kind == CoChannel && !alike:
		return Adjacent, row
	default:
		return w.kind, row
	}
}

func listed(r Review) map[string]bool {
	all := map[string]bool{}
	for _, c := range r.Conflicts {
		all[fmt.Sprint(c.Kind, c.A, c.B, c.Spacing, c.Outgoing)] = true
	}
	return all
}

// crowd draws stations close together in place and frequency, so that everything occurs.
func crowd(t *rapid.T) []Station {
	n := rapid.IntRange(2, 25).Draw(t, "stations")
	stations := make([]Station, n)
	for i := range stations {
		at := signal.Position{
			Lat: signal.MicroDegrees(rapid.Int64Range(40_000_000, 43_000_000).Draw(t, "lat")),
			Lon: signal.MicroDegrees(rapid.Int64Range(-105_000_000, -101_000_000).Draw(t, "lon")),
		}
		place := Place{At: at}
		switch rapid.IntRange(0, 5).Draw(t, "place") {
		case 0:
			place = PlaceOf(signal.GridOf(at, 4))
		case 1:
			place = PlaceOf(signal.GridOf(at, 6))
		}
		s := Station{Name: fmt.Sprint(i), Ours: rapid.Bool().Draw(t, "ours"), Place: &place, FM: rapid.Bool().Draw(t, "fm"), DMR: rapid.Bool().Draw(t, "dmr")}
		s.Callsign = rapid.SampledFrom([]signal.Callsign{"", "N0QRV"}).Draw(t, "callsign")
		s.Tone = rapid.SampledFrom([]signal.Tone{{}, signal.CTCSS(885).Tone(), signal.CTCSS(1035).Tone()}).Draw(t, "tone")
		s.Output = 146_940_000 + 2_500*signal.Hertz(rapid.IntRange(0, 12).Draw(t, "output"))
		s.Input = rapid.SampledFrom([]signal.Hertz{0, s.Output - 600_000, s.Output + 10_000, s.Output - 605_000, s.Output, 444_000_000, 1_282_000_000}).Draw(t, "input")
		if rapid.IntRange(0, 4).Draw(t, "cross-band") == 0 {
			s.Output, s.Input = s.Input, s.Output
		}
		if rapid.IntRange(0, 9).Draw(t, "unplaced") == 0 {
			s.Place = nil
		}
		stations[i] = s
	}
	return stations
}

func TestReviewAgainstBruteForce(t *testing.T) {
	table := Separations("US", nil)
	rapid.Check(t, func(t *rapid.T) {
		stations := crowd(t)
		review := table.Review(stations)
		if diff := cmp.Diff(bruteForce(table, stations), listed(review)); diff != "" {
			t.Fatalf("brute force - review +\n%s", diff)
		}
		if len(review.Conflicts) != len(listed(review)) {
			t.Fatalf("%d conflicts, %d of them different", len(review.Conflicts), len(listed(review)))
		}
		if !slices.IsSortedFunc(review.Conflicts, compareConflicts) {
			t.Fatal("not in order")
		}
		for _, c := range review.Conflicts {
			if !stations[c.A].Ours {
				t.Errorf("%+v: A is not ours", c)
			}
			if want := Distance(*stations[c.A].Place, *stations[c.B].Place); math.Abs(c.Distance.Least-want.Least) > 1e-6 {
				t.Errorf("distance %v; want %v", c.Distance, want)
			}
		}
	})
}

func TestReviewAgainstBruteForceContinent(t *testing.T) {
	table := Separations("US-MI", nil)
	stations := continent(1500, 3)
	want := bruteForce(table, stations)
	if diff := cmp.Diff(want, listed(table.Review(stations))); diff != "" || len(want) < 10 {
		t.Errorf("%d conflicts; brute force - review +\n%s", len(want), diff)
	}
}

func BenchmarkReview(b *testing.B) {
	table := Separations("US", nil)
	for _, n := range []int{300, 3_000, 30_000} {
		stations := continent(n, 1)
		b.Run(fmt.Sprintf("stations=%d", n), func(b *testing.B) {
			found := 0
			for b.Loop() {
				r := table.Review(stations)
				found = len(r.Conflicts) + r.HeldBack
			}
			b.ReportMetric(float64(found), "conflicts")
		})
	}
}

// The oracle's loops, for the ratio.
func BenchmarkReviewLoops(b *testing.B) {
	table := Separations("US", nil)
	for _, n := range []int{300, 3_000} {
		stations := continent(n, 1)
		b.Run(fmt.Sprintf("stations=%d", n), func(b *testing.B) {
			for b.Loop() {
				bruteForce(table, stations)
			}
		})
	}
}
