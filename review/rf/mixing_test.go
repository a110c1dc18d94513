package rf

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

// allProducts is the oracle of Mixing: every formula written out in loops. Transmit frequencies must differ.
func allProducts(transmit []signal.Hertz, receive []Receiver) []Product {
	var all []Product
	check := func(form Form, f signal.Hertz, a, b, c int) {
		for i, r := range receive {
			half := r.Bandwidth / 2
			if form.Harmonic() {
				half *= signal.Hertz(form.Order())
			}
			if off := f - r.Frequency; max(off, -off) <= half {
				all = append(all, Product{Form: form, Of: [3]int{a, b, c}, Frequency: f, Receiver: i, Off: off})
			}
		}
	}
	for a, fa := range transmit {
		check(SecondHarmonic, 2*fa, a, -1, -1)
		check(ThirdHarmonic, 3*fa, a, -1, -1)
		for b, fb := range transmit {
			if b == a {
				continue
			}
			check(TwoAMinusB, 2*fa-fb, a, b, -1)
			check(ThreeAMinusTwoB, 3*fa-2*fb, a, b, -1)
			for c, fc := range transmit {
				if c == a || c == b {
					continue
				}
				if fa < fb {
					check(APlusBMinusC, fa+fb-fc, a, b, c)
				}
				if fb < fc {
					check(ThreeAMinusBMinusC, 3*fa-fb-fc, a, b, c)
				}
				check(TwoAPlusBMinusTwoC, 2*fa+fb-2*fc, a, b, c)
			}
		}
	}
	slices.SortFunc(all, compareProducts)
	return all
}

func TestMixingAgainstLoops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		raster := rapid.SampledFrom([]signal.Hertz{5_000, 6_250, 12_500, 15_000}).Draw(t, "raster")
		channel := rapid.Custom(func(t *rapid.T) signal.Hertz {
			base := rapid.SampledFrom([]signal.Hertz{146_000_000, 222_100_000, 438_000_000, 440_000_000}).Draw(t, "base")
			return base + raster*signal.Hertz(rapid.IntRange(0, 400).Draw(t, "channel"))
		})
		transmit := rapid.SliceOfNDistinct(channel, 0, 9, rapid.ID[signal.Hertz]).Draw(t, "transmit")
		var receive []Receiver
		for _, f := range rapid.SliceOfN(channel, 0, 9).Draw(t, "receive") {
			receive = append(receive, Receiver{f, rapid.SampledFrom([]signal.Hertz{1, 15_000, 25_000}).Draw(t, "bandwidth")})
		}
		mix, err := Mixing(transmit, receive)
		if err != nil {
			t.Fatal(err)
		}
		want := allProducts(transmit, receive)
		listed := want[:min(len(want), MostProducts)]
		if diff := cmp.Diff(listed, mix.Products); diff != "" && len(listed)+len(mix.Products) > 0 {
			t.Fatalf("loops - ours +\n%s", diff)
		}
		if mix.HeldBack != len(want)-len(listed) {
			t.Errorf("%d held back; want %d", mix.HeldBack, len(want)-len(listed))
		}
	})
}

// thirdOnMembers counts the third-order products of channels of a raster that fall on a member.
func thirdOnMembers(t rapid.TB, channels []int, raster signal.Hertz) int {
	var transmit []signal.Hertz
	var receive []Receiver
	for _, c := range channels {
		f := 440_000_000 + raster*signal.Hertz(c)
		transmit = append(transmit, f)
		receive = append(receive, Receiver{f, 1})
	}
	mix, err := Mixing(transmit, receive)
	if err != nil {
		t.Fatal(err)
	}
	hits := 0
	for _, p := range mix.Products {
		if p.Form == TwoAMinusB || p.Form == APlusBMinusC {
			hits++
		}
	}
	return hits
}

// golomb tells whether all differences of the channels are different (W. C. Babcock, Bell System
// Technical Journal 32 (1953) 63).
func golomb(channels []int) bool {
	seen := map[int]bool{}
	for i, a := range channels {
		for _, b := range channels[:i] {
			d := max(a-b, b-a)
			if seen[d] {
				return false
			}
			seen[d] = true
		}
	}
	return true
}

func TestGolombHasNoThirdOrderHit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		channels := rapid.SliceOfNDistinct(rapid.IntRange(0, 60), 3, 8, rapid.ID[int]).Draw(t, "channels")
		if hits := thirdOnMembers(t, channels, 12_500); golomb(channels) != (hits == 0) {
			t.Fatalf("all differences differ: %v; third-order hits: %d", golomb(channels), hits)
		}
	})
}

func TestMixingRefusesTooMany(t *testing.T) {
	if _, err := Mixing(make([]signal.Hertz, MostTransmitters+1), nil); err == nil {
		t.Error("no error for a site of too many transmitters")
	}
}

func FuzzMixing(f *testing.F) {
	f.Add(int64(146_520_000), int64(146_340_000), int64(146_610_000), int64(146_700_000), int64(15_000))
	f.Add(int64(-1), int64(0), int64(1)<<62, int64(-1)<<62, int64(1)<<62)
	f.Fuzz(func(t *testing.T, a, b, c, r, width int64) {
		transmit := []signal.Hertz{signal.Hertz(a), signal.Hertz(b), signal.Hertz(c), signal.Hertz(a)}
		mix, err := Mixing(transmit, []Receiver{{signal.Hertz(r), signal.Hertz(width)}})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range mix.Products {
			if p.Frequency-signal.Hertz(r) != p.Off || max(p.Off, -p.Off) > 3*widestReceiver/2 {
				t.Errorf("%+v", p)
			}
		}
	})
}

// busySite draws transmitters and receivers on a 5 kHz raster of 2 m, as many of each.
func busySite(n int) (transmit []signal.Hertz, receive []Receiver) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, c := range r.Perm(800)[:n] {
		transmit = append(transmit, 144_000_000+5_000*signal.Hertz(c))
		receive = append(receive, Receiver{144_000_000 + 5_000*signal.Hertz(r.IntN(800)), 15_000})
	}
	return transmit, receive
}

// sparseSite spreads transmitters and receivers over 400 MHz in hertz, so that hits are rare and the
// search itself is measured.
func sparseSite(n int) (transmit []signal.Hertz, receive []Receiver) {
	r := rand.New(rand.NewPCG(1, 2))
	for range n {
		transmit = append(transmit, 50_000_000+signal.Hertz(r.Int64N(400_000_000)))
		receive = append(receive, Receiver{50_000_000 + signal.Hertz(r.Int64N(400_000_000)), 50})
	}
	return transmit, receive
}

func BenchmarkMixing(b *testing.B) {
	for _, kind := range []struct {
		name string
		site func(int) ([]signal.Hertz, []Receiver)
	}{{"crowded", busySite}, {"sparse", sparseSite}} {
		for _, n := range []int{20, 100, 200} {
			transmit, receive := kind.site(n)
			b.Run(fmt.Sprintf("%s/transmitters=%d", kind.name, n), func(b *testing.B) {
				hits := 0
				for b.Loop() {
					mix, err := Mixing(transmit, receive)
					if err != nil {
						b.Fatal(err)
					}
					hits = len(mix.Products) + mix.HeldBack
				}
				b.ReportMetric(float64(hits), "hits")
			})
		}
	}
}

// The oracle's loops, for the ratio: at 20 and 100 transmitters as many receivers.
func BenchmarkMixingLoops(b *testing.B) {
	for _, n := range []int{20, 100} {
		transmit, receive := sparseSite(n)
		b.Run(fmt.Sprintf("sparse/transmitters=%d", n), func(b *testing.B) {
			for b.Loop() {
				allProducts(transmit, receive)
			}
		})
	}
}
