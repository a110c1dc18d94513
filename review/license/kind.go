package license

import (
	"iter"
	"strings"
)

// Kind is what an emission carries, or all that a row allows: a set, one bit each. The
// words are those of 47 CFR 97.3(c), with phone cut in three because some rows tell
// analog, digital and single-sideband speech apart.
type Kind uint16

const (
	CW Kind = 1 << iota
	MCW
	RTTY
	Data
	Multiplexed
	PhoneAnalog
	PhoneDigital
	PhoneSSB
	Image
	SpreadSpectrum
	Test
	Pulse
	Every = 1<<iota - 1

	Phone   = PhoneAnalog | PhoneDigital | PhoneSSB
	Digital = PhoneDigital | Data | RTTY
)

// kindWords are the words of the tables, the wider before the narrower.
var kindWords = []struct {
	word string
	kind Kind
}{
	{"all", Every}, {"phone", Phone}, {"digital", Digital},
	{"phone-analog", PhoneAnalog}, {"phone-digital", PhoneDigital}, {"phone-ssb", PhoneSSB},
	{"CW", CW}, {"MCW", MCW}, {"RTTY", RTTY}, {"data", Data}, {"multiplexed", Multiplexed},
	{"image", Image}, {"SS", SpreadSpectrum}, {"test", Test}, {"pulse", Pulse},
}

// String returns the words of the tables, joined by a vertical bar: CW|phone|image.
func (k Kind) String() string {
	var words []string
	for _, w := range kindWords {
		if w.kind&k == w.kind {
			words, k = append(words, w.word), k&^w.kind
		}
	}
	if len(words) == 0 {
		return "none"
	}
	return strings.Join(words, "|")
}

// parseKinds reads what String writes.
func parseKinds(text string) (Kind, bool) {
	var all Kind
	for word := range strings.SplitSeq(text, "|") {
		found := Kind(0)
		for _, w := range kindWords {
			if w.word == word {
				found = w.kind
			}
		}
		if found == 0 {
			return 0, false
		}
		all |= found
	}
	return all, true
}

// each gives the single kinds of the set, or every kind if it is empty: what nobody has
// named must be allowed whatever it is.
func (k Kind) each() iter.Seq[Kind] {
	if k == 0 {
		k = Every
	}
	return func(yield func(Kind) bool) {
		for ; k != 0; k &= k - 1 {
			if !yield(k & -k) {
				return
			}
		}
	}
}
