package rules_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/review"
)

// A plantation is the text of a plan, and what must be found in it: pairs set at a known distance, each
// pair on frequencies or in a place of its own.
type plantation struct {
	repeaters, neighbors strings.Builder
	want                 []string // rule and both parties
	pairs                int
}

// The distances that the defaults ask, in meters: 75 mi on one 70 cm channel, 10 mi at 25 kHz
// (reference list separation.csv).
const (
	askedOnOne  = 75 * 1609.344
	askedBeside = 10 * 1609.344
)

// plant sets a pair whose distance is a share of what is asked. Shares within 3 % of a threshold are left
// out, since the distances are set on a sphere, which is up to 0.6 % off.
func (p *plantation) plant(r *rand.Rand) {
	k := p.pairs
	p.pairs++
	share := 0.1 + 1.4*r.Float64()
	if math.Abs(share-1) < 0.03 || math.Abs(share-1.2) < 0.03 {
		share = 0.5
	}
	rule, asked := "", askedOnOne
	output, other := 442_000_000+250_000*int64(k/20%10), int64(0)
	input, otherInput, tone := output+5_000_000, int64(0), "100.0"
	switch r.IntN(4) {
	case 0:
		rule, other = "co-channel", output
		otherInput = other + 5_000_000
	case 1:
		rule, other, tone = "same-access", output, "88.5"
		otherInput = other + 5_000_000
	case 2:
		rule, other, asked = "adjacent-channel", output+25_000, askedBeside
		otherInput = other + 5_000_000
	case 3: // its input is 50 kHz from the other's output, of which nothing is asked
		rule, other, otherInput = "crossed-pair", input, output+50_000
	}
	lat, lon := 30+5*float64(k%4), -122+8*float64(k/4%5)
	lat2, lon2 := onward(lat, lon, 2*math.Pi*r.Float64(), share*asked)
	one, two := fmt.Sprintf("r-%d", k), fmt.Sprintf("s-%d", k)
	p.repeater(one, output, input, "88.5", lat, lon)
	if r.IntN(2) == 0 {
		p.repeater(two, other, otherInput, tone, lat2, lon2)
	} else {
		fmt.Fprintf(&p.neighbors, "%s,%s,%s,%s,%.6f,%.6f\n", two, mhzOf(other), mhzOf(otherInput), tone, lat2, lon2)
	}
	switch {
	case share < 1:
		p.want = append(p.want, rule+" "+one+" "+two)
	case share < 1.2:
		p.want = append(p.want, "spacing-barely-met "+one+" "+two)
	}
}

func (p *plantation) repeater(key string, output, input int64, tone string, lat, lon float64) {
	fmt.Fprintf(&p.repeaters, "  %s: {output: %s, input: %s, fm: {tone: %s}, site: {lat: %.6f, lon: %.6f}}\n", key, mhzOf(output), mhzOf(input), tone, lat, lon)
}

func mhzOf(hertz int64) string { return fmt.Sprintf("%d.%06d", hertz/1_000_000, hertz%1_000_000) }

// onward goes so many meters from a place, on a sphere.
func onward(lat, lon, bearing, meters float64) (float64, float64) {
	const earth, degree = 6_371_008.8, math.Pi / 180
	d, p := meters/earth, lat*degree
	p2 := math.Asin(math.Sin(p)*math.Cos(d) + math.Cos(p)*math.Sin(d)*math.Cos(bearing))
	l2 := lon*degree + math.Atan2(math.Sin(bearing)*math.Sin(d)*math.Cos(p), math.Cos(d)-math.Sin(p)*math.Sin(p2))
	return p2 / degree, l2 / degree
}

func (p *plantation) load(t testing.TB) *plan.Expansion {
	return plan.Expand(plantest.Load(t, map[string][]byte{
		"plan.yaml":     []byte("plan: Planted\nedition: 2026\nregion: US\nlicense: technician\nneighbors: neighbors.csv\nrepeaters:\n" + p.repeaters.String()),
		"neighbors.csv": []byte("label,output,input,tone,lat,lon\n" + p.neighbors.String()),
	}))
}

// TestPlantedConflicts: of conflicts that were set in a plan and its neighbor list, each is found by its rule,
// with both parties, and nothing else is.
func TestPlantedConflicts(t *testing.T) {
	found, missed, surplus := 0, 0, 0
	for seed := range uint64(5) {
		p, r := &plantation{}, rand.New(rand.NewPCG(seed, 7))
		for range 200 {
			p.plant(r)
		}
		left := make(map[string]int)
		for _, w := range p.want {
			left[w]++
		}
		for _, f := range check(t, only("co-channel", "adjacent-channel", "crossed-pair", "same-access", "spacing-barely-met", "place-too-coarse"), p.load(t)) {
			got := f.Rule + " " + partiesOf(f)
			if left[got] == 0 {
				surplus++
				t.Errorf("seed %d: not planted: %s: %s", seed, got, f.What)
				continue
			}
			left[got]--
			found++
		}
		for w, n := range left {
			if missed += n; n > 0 {
				t.Errorf("seed %d: not found: %s", seed, w)
			}
		}
	}
	t.Logf("found %d, missed %d, surplus %d: precision %.3f, recall %.3f", found, missed, surplus, float64(found)/float64(found+surplus), float64(found)/float64(found+missed))
}

// partiesOf names both parties of a conflict, as they were planted.
func partiesOf(f review.Finding) string {
	var names []string
	for _, about := range f.About {
		names = append(names, about.Key)
	}
	if len(names) == 1 {
		names = append(names, f.Values[3])
	}
	slices.Sort(names)
	return strings.Join(names, " ")
}

// BenchmarkOnAir measures the rules about stations alone, from an expanded plan to findings: plans of
// 300 to 30,000 repeaters spread over a continent, and one site of 20 to 200 transmitters.
func BenchmarkOnAir(b *testing.B) {
	names := []string{"co-channel", "adjacent-channel", "crossed-pair", "same-access", "spacing-barely-met", "place-too-coarse", "mixing-product", "mixing-product-weak", "radio-not-checked"}
	run := func(name string, p *plantation) {
		x := p.load(b)
		rules := only(names...)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				v, err := review.Check(context.Background(), rules, x, today)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(v.Findings)), "findings")
			}
		})
	}
	for _, n := range []int{300, 3_000, 30_000} {
		p, r := &plantation{}, rand.New(rand.NewPCG(1, 1))
		for k := range n {
			output := 442_000_000 + 12_500*r.Int64N(240)
			p.repeater(fmt.Sprintf("r-%d", k), output, output+5_000_000, "88.5", 25+24*r.Float64(), -124+57*r.Float64())
		}
		run(fmt.Sprintf("repeaters/%d", n), p)
	}
	for _, n := range []int{20, 100, 200} {
		p, r := &plantation{}, rand.New(rand.NewPCG(2, 2))
		for k := range n {
			output := 442_000_000 + 12_500*r.Int64N(240)
			p.repeater(fmt.Sprintf("r-%d", k), output, output+5_000_000, "88.5", 40, -104)
		}
		run(fmt.Sprintf("site/%d", n), p)
	}
}
