package rf

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"passband.example/plandiff/signal"
)

func TestRaster(t *testing.T) {
	pairs := Raster(442_000_000, 442_050_000, 25_000, 5_000_000)
	if !slices.Equal(pairs, []Pair{{442_000_000, 447_000_000}, {442_025_000, 447_025_000}, {442_050_000, 447_050_000}}) {
		t.Errorf("%v", pairs)
	}
	for _, none := range [][]Pair{Raster(1, 2, 0, 1), Raster(2, 1, 1, 1), Raster(0, 1<<62, 1, 1)} {
		if none != nil {
			t.Errorf("%v", none)
		}
	}
}

// What Choose offers, Review has nothing to say about; what it leaves out as too near, Review finds. Products
// of an offered pair are of fifth order only, by the loops of TestMixingAgainstLoops.
func TestChooseAgreesWithReview(t *testing.T) {
	table := Separations("US", nil)
	rapid.Check(t, func(t *rapid.T) {
		stations := crowd(t)
		wish := Wish{Station: Station{Name: "new", Place: degreesAt(41.5, -103), FM: true}, Stations: stations, Pairs: Raster(146_910_000, 147_000_000, 5_000, -600_000)}
		choice := table.Choose(wish)
		offered := map[Pair]Candidate{}
		for _, c := range choice.Candidates {
			offered[c.Pair] = c
		}
		short := 0
		for _, pair := range wish.Pairs {
			station := wish.Station
			station.Output, station.Input, station.Ours = pair.Output, pair.Input, true
			near := false
			for _, c := range table.Review(append(neighborsOnly(stations), station)).Conflicts {
				near = near || c.Short != No
			}
			_, ok := offered[pair]
			if near {
				short++
			}
			if near && ok {
				t.Errorf("%v is offered and too near", pair)
			}
		}
		if short != choice.LeftOut[TooNear] {
			t.Errorf("%d left out as too near, %d are", choice.LeftOut[TooNear], short)
		}
		if n := len(choice.Candidates) + choice.LeftOut[TooNear] + choice.LeftOut[OnSite]; n != len(wish.Pairs) {
			t.Errorf("%d of %d pairs accounted for", n, len(wish.Pairs))
		}
		if !slices.IsSortedFunc(choice.Candidates, compareCandidates) {
			t.Error("not in order")
		}
	})
}

func neighborsOnly(stations []Station) []Station {
	all := slices.Clone(stations)
	for i := range all {
		all[i].Ours = false
	}
	return all
}

func TestChooseCases(t *testing.T) {
	table := Separations("US", nil)
	hill := degreesAt(40.1, -104.2)
	on := func(name string, place *Place, output, input signal.Hertz) Station {
		return Station{Name: name, Place: place, Output: output, Input: input, FM: true}
	}
	stations := []Station{
		on("same hill a", hill, 146_700_000, 146_100_000),
		on("same hill b", hill, 147_330_000, 147_930_000),
		on("far", degreesAt(42, -104.2), 146_940_000, 146_340_000),
		on("near", degreesAt(40.5, -104.2), 147_090_000, 147_690_000),
		{Name: "somewhere", Output: 146_760_000},
	}
	wish := Wish{
		Station: Station{Name: "new", Place: hill, FM: true}, Stations: stations,
		Pairs: []Pair{
			{146_940_000, 146_340_000},     // 211 km from far
			{147_090_000, 147_690_000},     // 44 km from near
			{147_285_000, 147_885_000},     // 45 kHz beside one of the hill: nothing is asked
			{146_640_000, 146_040_000},     // not allowed below
			{1_282_000_000, 1_270_000_000}, // no rows
			{147_015_000, 147_960_000},     // 2 x 147.330 - 146.700 falls on its input
		},
		Allowed: func(p Pair) (string, bool) { return "in the band plan", p.Output != 146_640_000 },
	}
	choice := table.Choose(wish)
	if len(choice.Candidates) != 2 || choice.Candidates[0].Output != 147_285_000 || choice.Candidates[1].Output != 146_940_000 {
		t.Fatalf("%+v", choice.Candidates)
	}
	if choice.LeftOut != [noFault]int{NoRow: 1, NotAllowed: 1, TooNear: 1, OnSite: 1} {
		t.Errorf("left out %v", choice.LeftOut)
	}
	if fmt.Sprint(choice.Site, choice.Unplaced) != "[0 1] [4]" {
		t.Errorf("site %v, unplaced %v", choice.Site, choice.Unplaced)
	}
	second := choice.Candidates[1]
	if second.Nearest == nil || second.Nearest.B != 2 || second.Margin < 1.31 || second.Margin > 1.32 {
		t.Errorf("%+v; want far, 211 km of 161", second)
	}
	text := strings.Join(second.Reasons, "\n")
	for _, want := range []string{"in the band plan", "co-channel to far at 211 km (131 mi), bearing 0", "the table asks 100 mi", "stations at the site: 2; no mixing product"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q; want %q in it", text, want)
		}
	}
	wish.Station.Place = nil
	if none := table.Choose(wish); none.Candidates != nil {
		t.Errorf("%+v without a place", none)
	}
}

// A site that is too large to look at is offered with a word about it, not called clean.
func TestChooseOnCrowdedSite(t *testing.T) {
	hill := degreesAt(40.1, -104.2)
	square := PlaceOf(signal.GridOf(hill.At, 6))
	stations := []Station{{Name: "in the square", Place: &square, Output: 440_000_000}}
	for i := range MostTransmitters + 1 {
		stations = append(stations, Station{Name: fmt.Sprint(i), Place: hill, Output: 440_000_000 + 1000*signal.Hertz(i)})
	}
	choice := Separations("US", nil).Choose(Wish{Station: Station{Place: hill, FM: true}, Pairs: []Pair{{147_000_000, 147_600_000}}, Stations: stations})
	if len(choice.Candidates) != 1 || !strings.Contains(strings.Join(choice.Candidates[0].Reasons, "\n"), "too many transmitters") {
		t.Errorf("%+v", choice)
	}
	if !slices.Equal(choice.MaybeSite, []int{0}) {
		t.Errorf("%v may share the site; want the first", choice.MaybeSite)
	}
}

func BenchmarkChoose(b *testing.B) {
	table := Separations("US", nil)
	wish := Wish{Station: Station{Place: degreesAt(40.1, -104.2), FM: true}, Stations: continent(30_000, 1), Pairs: Raster(440_000_000, 444_987_500, 12_500, 5_000_000)}
	for b.Loop() {
		table.Choose(wish)
	}
}
