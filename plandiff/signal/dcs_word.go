package signal

import "slices"

const (
	// golay is the generator x^11+x^10+x^6+x^5+x^4+x^2+1 of the (23,12) code, bit 0 the
	// lowest power. The published parity equations of DCS (mmi-comm.tripod.com, as
	// transcribed in SDRangel) agree with it on all 512 codes.
	golay = 0xC75

	wordBits = 23
	wordMask = 1<<wordBits - 1

	// fixedDigit is the octal digit 4 above the three of the code.
	fixedDigit = 0o4000
	windowMask = 0o7000
)

// Word returns the 23 bits that are sent over and over, inverted if the polarity is.
// The lowest bit goes first. From the top: 11 parity bits, the digits 100, nine bits of
// code.
func (d DCS) Word() uint32 {
	data := uint32(fixedDigit | d.Code&largestDCS)
	parity := data << 11
	for bit := wordBits - 1; bit >= 11; bit-- {
		if parity&(1<<bit) != 0 {
			parity ^= golay << (bit - 11)
		}
	}
	word := parity<<12 | data
	if d.Inverted {
		return ^word & wordMask
	}
	return word
}

// Spellings returns all codes that are this signal on the air, d among them: first
// the normal ones, then the inverted ones, each from the lowest up.
//
// The word repeats without a mark, so every rotation of it that shows the fixed digits
// 100 in their place spells a code.
func (d DCS) Spellings() []DCS {
	word := d.Word()
	return append(windows(word, false), windows(^word&wordMask, true)...)
}

func windows(word uint32, inverted bool) []DCS {
	var found []DCS
	for range wordBits {
		if word&windowMask == fixedDigit {
			found = append(found, DCS{Code: uint16(word & largestDCS), Inverted: inverted})
		}
		word = word>>1 | word&1<<(wordBits-1)
	}
	slices.SortFunc(found, func(a, b DCS) int { return int(a.Code) - int(b.Code) })
	return found
}
