package survey

import "testing"

// A place that is read lies on the earth; what is no place is refused with what to write.
func FuzzParsePlace(f *testing.F) {
	for _, seed := range []string{"40.1,-104.2", " 40.1 , -104.2 ", "DN70vc", "DN7", "90,180", "90.000001,0", ",", "40.1,-104.2,5", "40.1N,104.2W", "1e3,2", "\x00", "ridge"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		place, err := ParsePlace(text)
		if err != nil {
			if len(err.Error()) > 500 {
				t.Errorf("%q: the error has %d bytes", text, len(err.Error()))
			}
			return
		}
		if at := place.At; at.Lat < -90_000_000 || 90_000_000 < at.Lat || at.Lon < -180_000_000 || 180_000_000 < at.Lon {
			t.Errorf("%q lies at %v", text, at)
		}
	})
}
