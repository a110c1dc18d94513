package license

import (
	"math"
	"testing"

	"passband.example/plandiff/signal"
)

// Sites whose side of the line is plain on any map: the cities to the north are those that
// the rule closes, by 47 CFR 97.3(a)(30). Positions are of the city centers.
func TestLineA(t *testing.T) {
	tests := []struct {
		name     string
		lat, lon float64
		want     presence
	}{
		{"Seattle", 47.61, -122.33, inside},
		{"Portland, Oregon", 45.52, -122.68, outside},
		{"Astoria, Oregon: west of where the line begins", 46.19, -123.83, outside},
		{"Neah Bay: west of where the line begins", 48.37, -124.62, inside},
		{"Spokane: south of the parallel of 48 degrees", 47.66, -117.43, outside},
		{"Havre, Montana", 48.55, -109.68, inside},
		{"Fargo", 46.88, -96.79, outside},
		{"International Falls", 48.60, -93.41, inside},
		{"Minneapolis", 44.98, -93.27, outside},
		{"Marquette: north of the great circle from Duluth", 46.54, -87.40, inside},
		{"Green Bay", 44.51, -88.01, outside},
		{"Chicago", 41.88, -87.63, outside},
		{"Detroit", 42.33, -83.05, inside},
		{"Cleveland", 41.50, -81.69, inside},
		{"Columbus", 39.96, -83.00, outside},
		{"Indianapolis", 39.77, -86.16, outside},
		{"Buffalo", 42.89, -78.88, inside},
		{"Pittsburgh", 40.44, -80.00, outside},
		{"New York", 40.71, -74.01, outside},
		{"Burlington, Vermont", 44.48, -73.21, inside},
		{"Boston", 42.36, -71.06, outside},
		{"Caribou, Maine", 46.86, -68.01, inside},
		{"on the line at 48 degrees", 48.0, -100, unsure},
		{"3 km south of it: too near to say", 47.973, -100, unsure},
		{"20 km south of it", 47.82, -100, outside},
		{"Key West", 24.56, -81.78, outside},
	}
	line := region(t, "US").Place("line-a")
	for _, tt := range tests {
		if got := line.presence(at(tt.lat, tt.lon)); got != tt.want {
			t.Errorf("%s: %d, want %d", tt.name, got, tt.want)
		}
	}
	if got := line.presence(nil); got != unsure {
		t.Errorf("no site: %d, want unsure", got)
	}
}

// A locator of four characters is 1 by 2 degrees: what it leaves open stays open.
func TestSiteOfALocator(t *testing.T) {
	grid, err := signal.ParseGrid("IO91") // 51-52 N, 2-0 W: within and beyond 100 km of London
	if err != nil {
		t.Fatal(err)
	}
	london := region(t, "GB").Place("charing-cross")
	center, halfLat, halfLon := grid.Center()
	if got := london.presence(&Site{At: center, HalfLat: halfLat, HalfLon: halfLon}); got != unsure {
		t.Errorf("IO91 is %d, want unsure", got)
	}
	if got := london.presence(&Site{At: center}); got != inside {
		t.Errorf("the center of IO91 is %d, want inside (64 km)", got)
	}
	if got := london.presence(at(52.49, -1.89)); got != outside {
		t.Errorf("Birmingham is %d, want outside (163 km)", got)
	}
}

func TestBoxes(t *testing.T) {
	tests := []struct {
		place    string
		lat, lon float64
		want     presence
		why      string
	}{
		{"texas-new-mexico", 31.69, -104.19, inside, "31d41m to 34d30m N, 104d11m to 107d30m W (97.303(n)(2))"},
		{"texas-new-mexico", 31.68, -104.19, outside, "south of it"},
		{"texas-new-mexico", 34.51, -106, outside, "north of it"},
		{"texas-new-mexico", 33, -107.51, outside, "west of it"},
		{"texas-new-mexico", 33, -104.18, outside, "east of it"},
		{"white-sands", 35.08, -106.65, inside, "Albuquerque, 65 km north of the box"},
		{"white-sands", 33.45, -112.07, outside, "Phoenix, 425 km west of the box"},
		{"white-sands", 36.6, -106, inside, "233 km north of the box"},
		{"white-sands", 36.68, -106, unsure, "242 km north of the box, and the limits are from memory"},
		{"white-sands", 36.75, -106, outside, "250 km north of the box"},
		{"colorado-wyoming", 39.74, -104.99, inside, "Denver"},
		{"colorado-wyoming", 38.25, -104.61, outside, "Pueblo"},
		{"50-watt-areas", 39.74, -104.99, unsure, "its limits were not found"},
	}
	for _, tt := range tests {
		if got := region(t, "US").Place(tt.place).presence(at(tt.lat, tt.lon)); got != tt.want {
			t.Errorf("%s at %v, %v: %d, want %d: %s", tt.place, tt.lat, tt.lon, got, tt.want, tt.why)
		}
	}
}

// London to Paris is 343.6 km, Denver to Chicago 1475 km, a degree along the equator 111.195
// km: figures found in any table of great-circle distances, to a kilometer or two.
func TestKilometers(t *testing.T) {
	for _, tt := range []struct{ lat1, lon1, lat2, lon2, want float64 }{
		{51.5074, -0.1278, 48.8566, 2.3522, 343.6},
		{39.74, -104.99, 41.88, -87.63, 1475},
		{0, 0, 0, 1, 111.195},
		{90, 0, -90, 0, math.Pi * earthKm},
	} {
		if got := kilometers(tt.lat1, tt.lon1, tt.lat2, tt.lon2); math.Abs(got-tt.want) > tt.want*0.002 {
			t.Errorf("from %v, %v to %v, %v: %.1f km, want %.1f", tt.lat1, tt.lon1, tt.lat2, tt.lon2, got, tt.want)
		}
	}
}

// A site decides, a missing one warns, and a place from memory alone never blocks.
func TestPlacesInAVerdict(t *testing.T) {
	const watts = 1_000
	tests := []transmitCase{
		{"50 W from a 50 W area", "US", "446.0", "16K0F3E", "technician", Member, 50 * watts, 0, at(28.5, -81.4), Allowed, nil, 0, "47 CFR 97.313(f)"},
		{"100 W, and the areas are not known", "US", "446.0", "16K0F3E", "technician", Member, 100 * watts, 0, at(28.5, -81.4), Doubtful, []Reason{PlacePowerOver}, 0, "47 CFR 97.313(f)"},
		{"33 cm near White Sands with 100 W", "US", "927.5", "11K0F3E", "technician", Member, 100 * watts, 0, at(35.08, -106.65), Denied, []Reason{PlacePowerOver}, 0, "47 CFR 97.313(g)"},
		{"33 cm near White Sands with 50 W", "US", "927.5", "11K0F3E", "technician", Member, 50 * watts, 0, at(35.08, -106.65), Allowed, nil, 0, "47 CFR 97.313(g)"},
		{"33 cm in Denver: the box is from memory", "US", "927.5", "11K0F3E", "technician", Member, 0, 0, at(39.74, -104.99), Doubtful, []Reason{PlaceBarred}, 0, "47 CFR 97.303(n)(3)"},
		{"33 cm in Denver, between the segments", "US", "926.5", "11K0F3E", "technician", Member, 0, 0, at(39.74, -104.99), Allowed, nil, 0, "47 CFR 97.303(n)(3)"},
	}
	for _, tt := range tests {
		t.Run(tt.name, tt.run)
	}
}

// What lies near Detroit owes land mobile protection; that is said, and decides nothing.
func TestDutiesAtAPlace(t *testing.T) {
	v := region(t, "US").Transmit(Query{Center: 422_000_000, Emission: FMWide(), Class: "technician", Site: at(39.74, -104.99)})
	for _, row := range v.Also {
		if row.Place == "great-lakes-cities" {
			return
		}
	}
	t.Errorf("nothing is said of 97.303(m)(2): %v", v.Also)
}
