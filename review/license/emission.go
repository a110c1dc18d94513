package license

import (
	"fmt"
	"strings"

	"passband.example/plandiff/signal"
)

// Emission is one way to send: how wide, and what. A plan that gives no width gets one of
// FMWide, FMNarrow, DMRVoice and DMR.
type Emission struct {
	Designator         string       // 47 CFR 2.201, 2.202: 16K0F3E; empty if not known
	NecessaryBandwidth signal.Hertz // the width that is judged
	Kind               Kind         // all of what it carries; zero is judged as if it carried everything
}

// FMWide is FM speech with 5 kHz deviation and 3 kHz audio: 16 kHz by Carson's rule.
func FMWide() Emission { return Emission{"16K0F3E", 16_000, PhoneAnalog} }

// FMNarrow is FM speech with 2.5 kHz deviation and 3 kHz audio: 11 kHz by Carson's rule.
func FMNarrow() Emission { return Emission{"11K0F3E", 11_000, PhoneAnalog} }

// DMRVoice is a DMR channel that carries speech. The figure of 7.6 kHz is measured, not
// computed (emission lists in open projects; a data sheet), in a 12.5 kHz channel.
func DMRVoice() Emission { return Emission{"7K60FXE", 7_600, PhoneDigital} }

// DMR is a DMR channel that carries speech and data: both must be allowed.
func DMR() Emission { return Emission{"7K60FXW", 7_600, PhoneDigital | Data} }

// NecessaryFM returns the necessary bandwidth of FM speech, 2M + 2DK with K = 1, which is
// Carson's rule 2(M+D). Source: 47 CFR 2.202(g), ITU-R SM.1138.
func NecessaryFM(maxAudio, deviation signal.Hertz) signal.Hertz { return 2 * (maxAudio + deviation) }

// The symbols of 47 CFR 2.201 (RR Appendix 1).
const (
	modulations = "NAHRJBCDFGPKLMQVWX"
	signals     = "0123789X"
	contents    = "NABCDEFWX"
)

// ParseEmission reads an emission designator: four characters of width, three of class,
// and two more that may follow and are kept unread: 16K0F3E, 7K60FXW, 2K80J3EJN. It is an
// error where the width is no whole number of hertz, or the third symbol is X, which says
// nothing of what is sent.
func ParseEmission(text string) (Emission, error) {
	d := strings.ToUpper(strings.TrimSpace(text))
	if len(d) != 7 && len(d) != 9 {
		return Emission{}, emissionError(text, "does not have 7 or 9 characters")
	}
	width, problem := parseWidth(d[:4])
	if problem != "" {
		return Emission{}, emissionError(text, problem)
	}
	modulation, nature, content := d[4], d[5], d[6]
	switch {
	case strings.IndexByte(modulations, modulation) < 0:
		return Emission{}, emissionError(text, "has an unknown fifth character (modulation)")
	case strings.IndexByte(signals, nature) < 0:
		return Emission{}, emissionError(text, "has an unknown sixth character (nature of the signal)")
	case strings.IndexByte(contents, content) < 0:
		return Emission{}, emissionError(text, "has an unknown seventh character (what is sent)")
	case content == 'X':
		return Emission{}, emissionError(text, "does not say what is sent: its seventh character is X")
	}
	return Emission{d, width, kindOf(modulation, nature, content)}, nil
}

func emissionError(text, problem string) error {
	if len(text) > 20 {
		text = text[:20]
	}
	return fmt.Errorf("emission designator %+q %s; write width and class, as in 16K0F3E or 7K60FXE", text, problem)
}

// parseWidth reads the bandwidth of 47 CFR 2.202(b): three digits and the unit in the
// place of the decimal point.
func parseWidth(text string) (width signal.Hertz, problem string) {
	const units = "HKMG"
	at := strings.IndexAny(text, units)
	digits := text[:max(at, 0)] + text[at+1:]
	switch {
	case at < 0:
		return 0, "has no H, K, M or G in its width"
	case strings.Trim(digits, "0123456789") != "":
		return 0, "has a width that is not three digits and a letter"
	case at == 0 || text[0] == '0':
		return 0, "has a width that begins with 0 or with its unit (a fraction of a hertz is not read)"
	}
	scale := signal.Hertz(1)
	for range strings.IndexByte(units, text[at]) {
		scale *= 1_000
	}
	for _, c := range []byte(digits) {
		width = 10*width + signal.Hertz(c-'0')
	}
	width *= scale
	for range len(digits) - at {
		if width%10 != 0 {
			return 0, "has a width with a fraction of a hertz"
		}
		width /= 10
	}
	return width, ""
}

// kindOf follows 47 CFR 97.3(c). Digital speech has no word of its own there: the sixth
// character 1, 2 or 7 says digital, and X is what DMR is written with.
func kindOf(modulation, nature, content byte) Kind {
	speech := PhoneAnalog
	switch {
	case strings.IndexByte("127X", nature) >= 0:
		speech = PhoneDigital
	case strings.IndexByte("HJRB", modulation) >= 0:
		speech = PhoneSSB
	}
	switch {
	case strings.IndexByte("PKLMQV", modulation) >= 0:
		return Pulse
	case content == 'A' && nature == '2' && modulation != 'J':
		return MCW
	case content == 'A':
		return CW
	case content == 'B':
		return RTTY
	case content == 'C', content == 'F':
		return Image
	case content == 'D':
		return Data
	case content == 'E':
		return speech
	case content == 'W':
		return speech | Data
	default: // N: no information
		return Test
	}
}

// symbol returns the character of the class at an index from 0, or 0 if it is not known.
func (e Emission) symbol(i int) byte {
	if len(e.Designator) < 7 {
		return 0
	}
	return e.Designator[4+i]
}

// constantEnvelope tells whether the transmitter gives the same power at every instant
// it sends, so that peak envelope power and carrier power are one number.
func (e Emission) constantEnvelope() bool { return e.symbol(0) == 'F' || e.symbol(0) == 'G' }
