package rf

import (
	"testing"

	"passband.example/plandiff/signal"
)

func TestReviewCases(t *testing.T) {
	table := Separations("US", nil)
	tone := signal.CTCSS(885).Tone()
	other := signal.CTCSS(1413).Tone()
	ridge := Station{Name: "ridge", Callsign: "N0QRV", Ours: true, Place: degreesAt(40.1, -104.2), Output: 146_940_000, Input: 146_340_000, FM: true, Tone: tone}
	square := PlaceOf("DN70")
	with := func(change func(*Station)) Station {
		s := ridge
		s.Name, s.Callsign, s.Ours, s.Place = "knob", "N0QRW", false, degreesAt(40.9, -105.1)
		change(&s)
		return s
	}
	type found struct {
		Kind    Kind
		Inputs  bool
		Short   Answer
		Access  Access
		Spacing signal.Hertz
	}
	tests := []struct {
		name  string
		other Station
		want  *found // nil: nothing
		why   string
	}{
		{"same pair, same tone", with(func(s *Station) {}), &found{CoChannel, false, Yes, SameTone, 0}, "117 km where 161 are asked"},
		{"same pair, other tone", with(func(s *Station) { s.Tone = other }), &found{CoChannel, false, Yes, OtherKeys, 0}, "a tone keeps listeners apart, not signals"},
		{"same pair, one open", with(func(s *Station) { s.Tone = signal.Tone{} }), &found{CoChannel, false, Yes, OneOpen, 0}, "ridge's members open it"},
		{"same output, DMR", with(func(s *Station) { s.FM, s.DMR, s.ColorCode = false, true, 1 }), &found{CoChannel, false, Yes, Uncompared, 0}, "FM and DMR have no key in common"},
		{"same output, other input", with(func(s *Station) { s.Input = 147_540_000 }), &found{CoChannel, false, Yes, Uncompared, 0}, "tones open inputs, and these differ"},
		{"same input, other output", with(func(s *Station) { s.Output = 147_340_000 }), &found{CoChannel, true, Yes, SameTone, 0}, "the inputs are the nearer"},
		{"5 kHz beside", with(func(s *Station) { s.Output, s.Input = 146_945_000, 146_345_000 }), &found{CoChannel, false, Yes, Uncompared, 5_000}, "the table treats 5 kHz as co-channel"},
		{"15 kHz beside, near", with(func(s *Station) {
			s.Output, s.Input, s.Place = 146_955_000, 146_355_000, degreesAt(40.3, -104.2)
		}), &found{Adjacent, false, Yes, Uncompared, 15_000}, "22 km where 64 are asked"},
		{"15 kHz beside, far", with(func(s *Station) { s.Output, s.Input = 146_955_000, 146_355_000 }), nil, "117 km where 64 are asked"},
		{"30 kHz beside, same hill", with(func(s *Station) { s.Output, s.Input, s.Place = 146_970_000, 146_370_000, ridge.Place }), nil, "nothing is asked at 30 kHz"},
		{"its output on our input", with(func(s *Station) { s.Output, s.Input = 146_340_000, 145_740_000 }), &found{Crossed, false, Yes, Uncompared, 0}, "the two lock up"},
		{"from a square", with(func(s *Station) { s.Place = &square }), &found{CoChannel, false, CannotTell, SameTone, 0}, "a square of 102 km half diagonal around ridge"},
		{"a little farther", with(func(s *Station) { s.Place = degreesAt(41.6, -104.2) }), &found{CoChannel, false, No, SameTone, 0}, "167 km: within 1.2 times, worth a note"},
		{"far", with(func(s *Station) { s.Place = degreesAt(42, -104.2) }), nil, "211 km"},
		{"ourselves in the neighbor list", with(func(s *Station) { s.Callsign, s.Place = "N0QRV", degreesAt(40.11, -104.2) }), nil, "one callsign, one output, 1 km apart"},
		{"our callsign elsewhere", with(func(s *Station) { s.Callsign = "N0QRV" }), &found{CoChannel, false, Yes, SameTone, 0}, "117 km apart is another station"},
		{"no place", with(func(s *Station) { s.Place = nil }), nil, "without a place nothing is said"},
		{"no mode", with(func(s *Station) { s.FM = false }), &found{CoChannel, false, Yes, Uncompared, 0}, "counts as FM, with no tone to compare"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			review := table.Review([]Station{ridge, tt.other})
			var got *found
			if len(review.Conflicts) > 0 {
				c := review.Conflicts[0]
				got = &found{c.Kind, c.Inputs, c.Short, c.Access, c.Spacing}
			}
			switch {
			case len(review.Conflicts) > 1:
				t.Errorf("%d conflicts (%s)", len(review.Conflicts), tt.why)
			case got == nil && tt.want == nil:
			case got == nil || tt.want == nil || *got != *tt.want:
				t.Errorf("%+v; want %+v (%s)", got, tt.want, tt.why)
			}
		})
	}
}

func TestReviewSetsAside(t *testing.T) {
	place := degreesAt(40, -104)
	stations := []Station{
		{Name: "no place", Output: 146_940_000},
		{Name: "23 cm", Place: place, Output: 1_282_000_000},
		{Name: "fine", Place: place, Output: 146_940_000, Callsign: "N0QRV", Ours: true},
		{Name: "the same", Place: place, Output: 146_940_000, Callsign: "N0QRV"},
		{Name: "nothing", Place: place},
	}
	r := Separations("US", nil).Review(stations)
	if len(r.Unplaced) != 1 || r.Unplaced[0] != 0 || len(r.Unasked) != 2 || r.Unasked[0] != 1 || len(r.Same) != 1 || r.Same[0] != [2]int{2, 3} || len(r.Conflicts) != 0 {
		t.Errorf("%+v", r)
	}
}

// A list that is all conflicts is cut, and what was cut is counted.
func TestReviewIsCapped(t *testing.T) {
	stations := make([]Station, 200)
	for i := range stations {
		stations[i] = Station{Ours: true, Place: degreesAt(40+float64(i)*0.001, -104), Output: 146_940_000}
	}
	r := Separations("US", nil).Review(stations)
	if len(r.Conflicts) != MostConflicts || r.HeldBack != 200*199/2-MostConflicts {
		t.Errorf("%d conflicts and %d held back", len(r.Conflicts), r.HeldBack)
	}
	if first, last := r.Conflicts[0], r.Conflicts[MostConflicts-1]; first.Share() > last.Share() {
		t.Error("the gravest are not first")
	}
}
