package rf

import "passband.example/plandiff/signal"

// A band is a range of frequencies that the tables know by the name amateurs use for it.
type band struct {
	name      string
	low, high signal.Hertz
}

// The widest limits that any ITU Region gives a band (47 CFR 97.301(a), RR Article 5). They only
// choose rows of a table; whether a frequency may be used is for package license.
var bands = [...]band{
	{"10m", 28_000_000, 29_700_000},
	{"6m", 50_000_000, 54_000_000},
	{"4m", 69_900_000, 70_500_000},
	{"2m", 144_000_000, 148_000_000},
	{"1.25m", 219_000_000, 225_000_000},
	{"70cm", 420_000_000, 450_000_000},
	{"33cm", 902_000_000, 928_000_000},
	{"23cm", 1_240_000_000, 1_300_000_000},
}

// Band returns the name of the band that a frequency lies in, 2m or 70cm, and "" where it lies in
// none from 28 to 1300 MHz.
func Band(f signal.Hertz) string {
	for _, b := range bands {
		if f >= b.low && f <= b.high {
			return b.name
		}
	}
	return ""
}

func knownBand(name string) bool {
	_, _, ok := BandLimits(name)
	return ok
}

// BandNames are the names of the bands that tables know, from the lowest up.
func BandNames() []string {
	var names []string
	for _, b := range bands {
		names = append(names, b.name)
	}
	return names
}

// BandLimits returns the widest limits that any ITU Region gives a band; false where its name is not known.
func BandLimits(name string) (low, high signal.Hertz, ok bool) {
	for _, b := range bands {
		if b.name == name {
			return b.low, b.high, true
		}
	}
	return 0, 0, false
}
