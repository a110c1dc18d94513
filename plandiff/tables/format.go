package tables

import (
	"fmt"
	"strconv"
	"strings"

	"passband.example/plandiff/signal"
)

// A kind says how the text of a value becomes a cell. A cell of words is guarded, and so
// is whatever else is not a number after all. A number is made of digits, a point and a
// sign, and a sign before digits is data.
type kind uint8

const (
	words     kind = iota // any text
	number                // digits, perhaps with decimals and a sign
	frequency             // MHz
	distance              // a split: MHz with a sign
	tone                  // 103.5, D023N
)

// A format is how a number or a tone is written. The zero value writes it as a plan does.
type format struct {
	unit     string // MHz, kHz or Hz
	fixed    bool   // with a fixed number of decimals
	decimals int
	bare     bool // a DCS code without its D
}

// places is how many decimals of the unit make hertz.
func (f format) places() int {
	switch f.unit {
	case "kHz":
		return 3
	case "Hz":
		return 0
	}
	return 6
}

// parseFormat reads what a layout says of a format.
func parseFormat(k kind, text string) (format, error) {
	switch k {
	case frequency, distance:
		unit, rest, more := strings.Cut(text, " ")
		f := format{unit: unit}
		if unit != "MHz" && unit != "kHz" && unit != "Hz" {
			return f, fmt.Errorf("%q is not a format of a frequency; write MHz, kHz or Hz, and behind it the number of decimals, such as MHz 5", clip(text))
		}
		if more {
			n, err := strconv.Atoi(rest)
			if err != nil || n < 0 || n > f.places() {
				return f, fmt.Errorf("%q is not a number of decimals; %s has 0 to %d", clip(rest), unit, f.places())
			}
			f.fixed, f.decimals = true, n
		}
		return f, nil
	case tone:
		switch text {
		case "D023N":
			return format{}, nil
		case "023N":
			return format{bare: true}, nil
		}
		return format{}, fmt.Errorf("%q is not a format of a tone; write D023N or 023N, for how a DCS code is written", clip(text))
	}
	return format{}, fmt.Errorf("this value has no format; take the format out, or put words for its values into map")
}

// write gives a text of a plan as the cell has it.
func (f format) write(k kind, text string, comma bool) (string, error) {
	switch k {
	case frequency, distance:
		if f.unit != "" {
			least := 0
			if k == frequency && f.places() == 6 {
				least = 3
			}
			var err error
			if text, err = f.decimal(text, least); err != nil {
				return "", err
			}
		}
	case tone:
		if f.bare {
			text = strings.TrimPrefix(text, "D")
		}
	case words:
		return text, nil
	}
	if comma && isNumber(text) {
		text = strings.Replace(text, ".", ",", 1)
	}
	return text, nil
}

// decimal writes MHz in the unit of the format, exactly.
func (f format) decimal(text string, least int) (string, error) {
	sign, digits := cutSign(text)
	whole, fraction, _ := strings.Cut(digits, ".")
	fraction = strings.TrimRight(fraction, "0")
	fraction += strings.Repeat("0", max(0, 6-len(fraction)))
	shift := 6 - f.places()
	whole, fraction = whole+fraction[:shift], fraction[shift:]
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	keep := len(strings.TrimRight(fraction, "0"))
	switch {
	case f.fixed && keep > f.decimals:
		return "", fmt.Errorf("%s MHz has more decimals than the %d that the column shows in %s, and a frequency is not rounded; give the column more decimals", text, f.decimals, f.unit)
	case f.fixed:
		keep = f.decimals
	default:
		keep = min(max(keep, least), len(fraction))
	}
	if keep == 0 {
		return sign + whole, nil
	}
	return sign + whole + "." + fraction[:keep], nil
}

// read gives the text of a plan that a cell stands for. The parsers of the plan
// judge it.
func (f format) read(k kind, cell string, comma bool) (string, error) {
	if k == words {
		return cell, nil
	}
	text := strings.TrimSpace(cell)
	if comma && strings.Count(text, ",") == 1 {
		text = strings.Replace(text, ",", ".", 1)
	}
	switch k {
	case frequency, distance:
		if shift := 6 - f.places(); f.unit != "" && shift > 0 {
			return toMegahertz(text, f.unit, shift)
		}
	case tone:
		if f.bare {
			return fromBare(text), nil
		}
	}
	return text, nil
}

// fromBare reads a tone whose DCS codes have no D: three digits with a polarity.
func fromBare(text string) string {
	digits := strings.TrimRight(text, "NInir")
	if len(digits) == 3 && len(text) == 4 && strings.Trim(digits, "01234567") == "" {
		return "D" + text
	}
	return text
}

// toMegahertz reads a number of kHz or Hz as MHz.
func toMegahertz(text, unit string, shift int) (string, error) {
	sign, digits := cutSign(text)
	whole, fraction, point := strings.Cut(digits, ".")
	if !isDigits(whole) || point && !isDigits(fraction) || len(digits) > 24 {
		return "", fmt.Errorf("%q is not a number of %s; write digits, as in %s", clip(text), unit, map[string]string{"kHz": "146520", "Hz": "146520000"}[unit])
	}
	whole = strings.Repeat("0", shift) + whole
	text = strings.TrimLeft(whole[:len(whole)-shift], "0")
	if text == "" {
		text = "0"
	}
	return sign + text + "." + whole[len(whole)-shift:] + fraction, nil
}

func cutSign(text string) (sign, digits string) {
	if text != "" && (text[0] == '+' || text[0] == '-') {
		return text[:1], text[1:]
	}
	return "", text
}

func isDigits(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }

// isNumber reports whether a text is digits with at most one point or comma, and
// perhaps a sign.
func isNumber(text string) bool {
	_, digits := cutSign(text)
	whole, fraction, point := strings.Cut(strings.Replace(digits, ",", ".", 1), ".")
	return isDigits(whole) && (!point || isDigits(fraction))
}

// mhz gives a frequency as a plan writes it; nothing for none.
func mhz(f signal.Hertz) []string {
	if f == 0 {
		return nil
	}
	return []string{f.String()}
}

// clip shortens a text for a message.
func clip(s string) string {
	if runes := []rune(s); len(runes) > 60 {
		return string(runes[:60]) + "…"
	}
	return s
}
