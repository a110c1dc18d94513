package license

import (
	"strings"
	"testing"

	"passband.example/plandiff/signal"
)

func TestParseEmission(t *testing.T) {
	tests := []struct {
		text  string
		width signal.Hertz
		kind  Kind
		why   string
	}{
		{"2K40J3E", 2_400, PhoneSSB, "47 CFR 2.202(b): 2.4 kHz = 2K40"},
		{"12K5F3E", 12_500, PhoneAnalog, "47 CFR 2.202(b): 12.5 kHz = 12K5"},
		{"180KF3E", 180_000, PhoneAnalog, "47 CFR 2.202(b): 180.4 kHz = 180K"},
		{"181KF3E", 181_000, PhoneAnalog, "47 CFR 2.202(b): 180.5 kHz = 181K"},
		{"1M25F3E", 1_250_000, PhoneAnalog, "47 CFR 2.202(b): 1.25 MHz = 1M25"},
		{"2M00F3E", 2_000_000, PhoneAnalog, "47 CFR 2.202(b): 2 MHz = 2M00"},
		{"5G65G7W", 5_650_000_000, PhoneDigital | Data, "47 CFR 2.202(b): 5.65 GHz = 5G65"},
		{"400HA1A", 400, CW, "47 CFR 2.202(b): 400 Hz = 400H"},
		{"150HA1A", 150, CW, "a Morse signal of 150 Hz"},
		{"100HA1A", 100, CW, "47 CFR 2.202(g): 100HA1A for 25 words a minute"},
		{"16K0F3E", 16_000, PhoneAnalog, "2(D+M) with 5 and 3 kHz"},
		{"11K0F3E", 11_000, PhoneAnalog, "2(D+M) with 2.5 and 3 kHz"},
		{"11K2F3E", 11_200, PhoneAnalog, "often written for the 11.25 kHz limit"},
		{"11K3F3E", 11_300, PhoneAnalog, "11.25 kHz by the rounding of 2.202(b)"},
		{"8K50F3E", 8_500, PhoneAnalog, "a maker's figure"},
		{"20K0F3E", 20_000, PhoneAnalog, "old wide FM"},
		{"16K0F2D", 16_000, Data, "FM packet"},
		{"7K60FXE", 7_600, PhoneDigital, "DMR voice"},
		{"7K60FXD", 7_600, Data, "DMR data"},
		{"7K60FXW", 7_600, PhoneDigital | Data, "DMR voice and data"},
		{"7k60fxe", 7_600, PhoneDigital, "small letters read the same"},
		{"16K0F3EJN", 16_000, PhoneAnalog, "two more characters may follow (2.201)"},
		{"6K00A3E", 6_000, PhoneAnalog, "AM speech"},
		{"16K0F2A", 16_000, MCW, "tone-modulated Morse"},
		{"6M00C3F", 6_000_000, Image, "television"},
		{"10K0F1B", 10_000, RTTY, "telegraphy for automatic reception"},
		{"16K0NON", 0, 0, ""},
		{"16K0F0N", 16_000, Test, "no information"},
	}
	for _, tt := range tests {
		if tt.why == "" { // NON has the letter O for a zero
			if e, err := ParseEmission(tt.text); err == nil {
				t.Errorf("%s was read as %v", tt.text, e)
			}
			continue
		}
		e, err := ParseEmission(tt.text)
		if err != nil || e.NecessaryBandwidth != tt.width || e.Kind != tt.kind || e.Designator != strings.ToUpper(tt.text) {
			t.Errorf("%s: %v, %v; want %d Hz of %v: %s", tt.text, e, err, tt.width, tt.kind, tt.why)
		}
	}
}

func TestParseEmissionRefuses(t *testing.T) {
	tests := []struct{ text, problem, why string }{
		{"", "7 or 9 characters", "empty"},
		{"16K0F3", "7 or 9 characters", "one symbol short"},
		{"0K16F3E", "begins with 0", "2.202(b): the first character is not zero"},
		{"K160F3E", "begins with", "2.202(b): nor K"},
		{"H400A1A", "begins with", "a fraction of a hertz: below anything a plan holds"},
		{"25H3A1A", "fraction of a hertz", "25.3 Hz is no whole number"},
		{"1600F3E", "no H, K, M or G", "no unit"},
		{"1K0KF3E", "three digits and a letter", "two units"},
		{"1?K0F3E", "three digits and a letter", "no digit"},
		{"16K0Z3E", "fifth character", "2.201: no such modulation"},
		{"16K0F4E", "sixth character", "2.201: no such nature"},
		{"16K0F3G", "seventh character", "2.201: no such content"},
		{"16K0FXX", "does not say what is sent", "nothing can be judged"},
		{"16\x1b[F3E", "no H, K, M or G", "an escape sequence is shown harmless"},
	}
	for _, tt := range tests {
		_, err := ParseEmission(tt.text)
		if err == nil || !strings.Contains(err.Error(), tt.problem) {
			t.Errorf("%q: %v; want an error with %q: %s", tt.text, err, tt.problem, tt.why)
		}
		if err != nil && strings.ContainsRune(err.Error(), '\x1b') {
			t.Errorf("%q: the error lets an escape character through", tt.text)
		}
	}
}

// The table is that of a Norwegian page on FM and of 47 CFR 2.202(g), with K = 1.
func TestNecessaryFM(t *testing.T) {
	for _, tt := range []struct{ audio, deviation, want signal.Hertz }{
		{3_000, 5_000, FMWide().NecessaryBandwidth},
		{3_000, 2_500, FMNarrow().NecessaryBandwidth},
		{3_000, 7_000, 20_000},
	} {
		if got := NecessaryFM(tt.audio, tt.deviation); got != tt.want {
			t.Errorf("NecessaryFM(%d, %d) = %d, want %d", tt.audio, tt.deviation, got, tt.want)
		}
	}
}

// The emissions that a plan gets by default are what their designators say.
func TestDefaultEmissionsAreTheirDesignators(t *testing.T) {
	for _, e := range []Emission{FMWide(), FMNarrow(), DMRVoice(), DMR()} {
		if read, err := ParseEmission(e.Designator); err != nil || read != e {
			t.Errorf("%s is read as %v, %v", e.Designator, read, err)
		}
	}
}

func FuzzParseEmission(f *testing.F) {
	for _, seed := range []string{"16K0F3E", "7K60FXW", "150HA1A", "1M25F3E", "H400A1A", "25H3A1A", "16K0F3EJN", "", "16K0FXX", "5G65G7W"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, err := ParseEmission(text)
		if err != nil {
			if e != (Emission{}) {
				t.Errorf("%q: both %v and an error", text, e)
			}
			return
		}
		if e.NecessaryBandwidth <= 0 || e.Kind == 0 || e.Kind&^Every != 0 {
			t.Errorf("%q is read as %d Hz of %v", text, e.NecessaryBandwidth, e.Kind)
		}
		if again, err := ParseEmission(e.Designator); err != nil || again != e {
			t.Errorf("%q is read as %v and then as %v, %v", text, e, again, err)
		}
	})
}
