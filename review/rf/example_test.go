package rf_test

import (
	"fmt"

	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

var (
	ridge = signal.Position{Lat: 40_100_000, Lon: -104_200_000}
	knob  = signal.Position{Lat: 40_900_000, Lon: -105_100_000}
)

func ExampleGeodesic() {
	way := rf.Geodesic(ridge, knob)
	fmt.Printf("%.3f km, bearing %.0f, back %.0f\n", way.Meters/1000, way.Bearing, way.Back)
	// Output:
	// 117.097 km, bearing 320, back 139
}

// A square of four characters leaves open whether 100 miles are kept.
func ExampleDistance() {
	const hundredMiles = 160_934.4
	hill := rf.Place{At: signal.Position{Lat: 41_200_000, Lon: -103_300_000}}
	for _, grid := range []signal.Grid{"DN70", "DN70vc"} {
		d := rf.Distance(rf.PlaceOf(grid), hill)
		fmt.Printf("%s: %.0f to %.0f km, nearer than 161 km: %s\n", grid, d.Least/1000, d.Most/1000, d.NearerThan(hundredMiles))
	}
	// Output:
	// DN70: 61 to 265 km, nearer than 161 km: cannot tell from a locator
	// DN70vc: 140 to 148 km, nearer than 161 km: yes
}

func ExampleEgliLoss() {
	loss, err := rf.EgliLoss(146_940_000, 20_000, 75, 1.5)
	fmt.Printf("%.1f dB %v\n", loss, err)
	_, err = rf.EgliLoss(1_282_000_000, 20_000, 75, 1.5)
	fmt.Println(err)
	// Output:
	// 142.5 dB <nil>
	// Egli's loss holds for a frequency of 90 to 1000 MHz, and 1282 MHz is outside; leave the estimate out
}

func ExampleRadiatedWatts() {
	erp := rf.RadiatedWatts(150_000, 7, 2+2.2) // mW; dBd; line and duplexer
	fmt.Printf("%.0f W ERP, %.0f W EIRP, %.1f dBm\n", erp, rf.EIRPOf(erp), rf.DBmOf(erp))
	// Output:
	// 286 W ERP, 469 W EIRP, 54.6 dBm
}

// Two clubs have one pair and one tone.
func ExampleTable_Review() {
	tone := signal.CTCSS(885).Tone()
	stations := []rf.Station{
		{Name: "ridge", Ours: true, Place: &rf.Place{At: ridge}, Output: 146_940_000, Input: 146_340_000, FM: true, Tone: tone},
		{Name: "knob", Place: &rf.Place{At: knob}, Output: 146_940_000, Input: 146_340_000, FM: true, Tone: tone},
		{Name: "hollow", Output: 146_940_000, Input: 146_340_000, FM: true},
	}
	review := rf.Separations("US-AL", nil).Review(stations)
	for _, c := range review.Conflicts {
		fmt.Printf("%s and %s: %s, %s\n", stations[c.A].Name, stations[c.B].Name, c.Kind, c.Access)
		fmt.Printf("%.0f km apart, bearing %.0f; nearer than asked: %s\n", c.Distance.Least/1000, c.Bearing, c.Short)
		fmt.Println(c.Row.Cite())
	}
	for _, i := range review.Unplaced {
		fmt.Println("not looked at, since it has no place:", stations[i].Name)
	}
	// Output:
	// ridge and knob: co-channel, the same access tone
	// 117 km apart, bearing 320; nearer than asked: yes
	// 100 mi, 2m, 0 kHz apart (US-AL: Alabama state coordination guidelines, web page 'Coordination Guidelines')
	// not looked at, since it has no place: hollow
}

// The published example NCVEC E4D05: 146.52 and 146.34 MHz on a receiver at 146.70.
func ExampleMixing() {
	transmit := []signal.Hertz{146_520_000, 146_340_000}
	mix, err := rf.Mixing(transmit, []rf.Receiver{{Frequency: 146_700_000}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range mix.Products {
		fmt.Printf("order %d: %s, %d Hz off\n", p.Form.Order(), p.Formula(transmit), int64(p.Off))
	}
	// Output:
	// order 3: 2 x 146.520 - 146.340 = 146.700, 0 Hz off
}

func ExampleTable_Choose() {
	choice := rf.Separations("US", nil).Choose(rf.Wish{
		Station: rf.Station{Place: &rf.Place{At: ridge}, FM: true},
		Pairs:   rf.Raster(444_300_000, 444_350_000, 25_000, 5_000_000),
		Stations: []rf.Station{
			{Name: "ridge", Place: &rf.Place{At: ridge}, Output: 444_350_000, Input: 449_350_000, DMR: true},
			{Name: "far", Place: &rf.Place{At: signal.Position{Lat: 41_500_000, Lon: -104_200_000}}, Output: 444_300_000, Input: 449_300_000, FM: true},
		},
		Allowed: func(rf.Pair) (string, bool) { return "in the repeater segment", true },
	})
	for _, c := range choice.Candidates {
		fmt.Printf("%s / %s, %.2f times as far as asked\n", c.Output, c.Input, c.Margin)
		for _, reason := range c.Reasons {
			fmt.Println(" ", reason)
		}
	}
	fmt.Println("left out as", rf.TooNear, choice.LeftOut[rf.TooNear])
	// Output:
	// 444.300 / 449.300, 1.29 times as far as asked
	//   in the repeater segment
	//   co-channel to far at 155 km (97 mi), bearing 0; the table asks 75 mi, 70cm, 0 kHz apart (proposed default of this project, the middle of what US councils publish)
	//   stations at the site: 1; no mixing product or harmonic with them
	// left out as too near to another station 2
}

// A slot of its own for each group, not a pool of two.
func ExampleErlangB() {
	slot, _ := rf.ErlangB(0.5, 1)
	pool, _ := rf.ErlangB(1, 2)
	fmt.Printf("half an hour of talk an hour on each slot: %.0f %% of calls find it busy; a pool of two would be %.0f %%\n", 100*slot, 100*pool)
	// Output:
	// half an hour of talk an hour on each slot: 33 % of calls find it busy; a pool of two would be 20 %
}

func ExampleScan() {
	channels := make([]rf.ScanChannel, 16)
	for i := range channels {
		channels[i].DMR = true
		if i < 4 {
			channels[i].Others = 1 // always busy with other groups
		}
	}
	e := rf.Scan(channels, rf.UsualScanTimes())
	fmt.Printf("sweep %v, wait %v on average and %v at worst, at %v a channel and %v an address\n", e.Sweep, e.MeanWait, e.WorstWait, e.Times.Carrier, e.Times.Address)
	// Output:
	// sweep 2.24s, wait 1.48s on average and 2.6s at worst, at 50ms a channel and 360ms an address
}

func ExampleExpose() {
	e, err := rf.Expose("US", rf.Transmission{Frequency: 146_940_000, ERPWatts: 100, Duty: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f m to the public limit and %.1f m to the occupational one (%s); no evaluation is asked where nobody comes within %.1f m\n", e.PublicM, e.OccupationalM, e.Public.Source, e.ExemptM)
	fmt.Println(rf.ExposureNotice)
	// Output:
	// 4.1 m to the public limit and 1.8 m to the occupational one (47 CFR 1.1310(e) Table 1); no evaluation is asked where nobody comes within 5.1 m
	// this is arithmetic for the main beam, not an evaluation: other transmitters of the site add to it, and the licensee must evaluate
}
