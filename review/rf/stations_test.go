package rf

import (
	"fmt"
	"math/rand/v2"

	"passband.example/plandiff/signal"
)

// continent makes stations at random over a continent, 25 to 49 north and 67 to 124 west, on 2 m and
// 70 cm pairs: the size of the whole of a country's repeaters at 30,000.
func continent(n int, seed uint64) []Station {
	r := rand.New(rand.NewPCG(seed, 7))
	tones := signal.StandardCTCSS()
	stations := make([]Station, n)
	for i := range stations {
		place := Place{At: signal.Position{
			Lat: signal.MicroDegrees(25_000_000 + r.Int64N(24_000_000)),
			Lon: signal.MicroDegrees(-124_000_000 + r.Int64N(57_000_000)),
		}}
		if r.IntN(10) == 0 {
			place = PlaceOf(signal.GridOf(place.At, 6))
		}
		s := Station{Name: fmt.Sprintf("s%d", i), Ours: true, Place: &place, FM: r.IntN(3) > 0, ColorCode: signal.ColorCode(r.IntN(16))}
		s.DMR = !s.FM || r.IntN(4) == 0
		if r.IntN(5) > 0 {
			s.Tone = tones[r.IntN(len(tones))].Tone()
		}
		if r.IntN(3) == 0 {
			s.Output = 146_610_000 + 15_000*signal.Hertz(r.IntN(52))
			s.Input = s.Output - 600_000
		} else {
			s.Output = 440_000_000 + 12_500*signal.Hertz(r.IntN(400))
			s.Input = s.Output + 5_000_000
		}
		stations[i] = s
	}
	return stations
}
