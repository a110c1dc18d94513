package signal

import (
	"strconv"
	"strings"
)

// A notation is how one kind of number is written in a plan.
type notation struct {
	kind   string // what the number is, for errors: frequency
	unit   string // the unit it is understood in, which is not written: MHz
	write  string // what to write: write MHz, as in 146.520
	places int    // decimals that count; the value is scaled by ten to this power
	finest string // what the last decimal stands for: 1 Hz
	strict bool   // refuse zeros beyond the last decimal too
	sign   sign

	// The smallest and the largest value, scaled; nonzero leaves out the zero between.
	lowest, highest int64
	nonzero         bool
}

// holds tells whether a value that was read lies in the range of the notation.
func (n notation) holds(value int64) bool {
	return n.lowest <= value && value <= n.highest && (value != 0 || !n.nonzero)
}

// accepts tells whether text is a value in range.
func (n notation) accepts(text string) bool {
	value, ok := n.parse(text)
	return ok && n.holds(value)
}

type sign int

const (
	signNone sign = iota
	signMinus
	signRequired
)

// longestWhole is the most digits before the point; with six decimals behind it
// the value still fits an int64.
const longestWhole = 12

// read returns the value of the text times ten to the number of places, exactly. It
// does not look at the range.
func (n notation) read(text string) (int64, error) {
	value, ok := n.parse(text)
	if !ok {
		return 0, n.explain(text)
	}
	return value, nil
}

func (n notation) parse(text string) (value int64, ok bool) {
	sign, digits := n.cutSign(text)
	value, ok = n.scan(digits)
	if sign == "-" {
		value = -value
	}
	return value, ok && (sign != "" || n.sign != signRequired)
}

func (n notation) cutSign(text string) (sign, digits string) {
	switch {
	case n.sign == signRequired && strings.HasPrefix(text, "+"),
		n.sign != signNone && strings.HasPrefix(text, "-"):
		return text[:1], text[1:]
	}
	return "", text
}

// scan reads digits, and where there are places an optional point and digits.
func (n notation) scan(digits string) (value int64, ok bool) {
	whole, fraction, point := strings.Cut(digits, ".")
	switch {
	case len(digits) > longestShown, !isDigits(whole) || len(whole) > longestWhole,
		len(whole) > 1 && whole[0] == '0',
		point && (!isDigits(fraction) || n.places == 0):
		return 0, false
	}
	if !n.strict {
		fraction = strings.TrimRight(fraction, "0")
	}
	if len(fraction) > n.places {
		return 0, false
	}
	for _, digit := range []byte(whole) {
		value = 10*value + int64(digit-'0')
	}
	for i := range n.places {
		value *= 10
		if i < len(fraction) {
			value += int64(fraction[i] - '0')
		}
	}
	return value, true
}

func (n notation) error(text, problem, instead, fix string) error {
	return &Error{Kind: n.kind, Text: text, Problem: problem, Instead: instead, Fix: fix}
}

// fixed is an error whose remedy is known: instead ends with the fix.
func (n notation) fixed(text, problem, instead, fix string) error {
	return n.error(text, problem, instead+" "+fix, fix)
}

// formatDecimal writes value, scaled by ten to the number of places, with as many
// decimals as it needs and no fewer than least.
func formatDecimal(value int64, places, least int) string {
	sign, size := "", uint64(value)
	if value < 0 {
		sign, size = "-", -size
	}
	digits := strconv.FormatUint(size, 10)
	if lacking := places + 1 - len(digits); lacking > 0 {
		digits = strings.Repeat("0", lacking) + digits
	}
	whole, fraction := digits[:len(digits)-places], digits[len(digits)-places:]
	for len(fraction) > least && fraction[len(fraction)-1] == '0' {
		fraction = fraction[:len(fraction)-1]
	}
	if fraction == "" {
		return sign + whole
	}
	return sign + whole + "." + fraction
}
