package signal

import (
	"fmt"
	"strings"
	"unicode"
)

// explain finds the likeliest reason why text is no number in this notation. A fix is
// offered only where it can be read and lies in range.
func (n notation) explain(text string) error {
	if len(text) > longestShown {
		return n.error(text, "is too long for a number", n.write, "")
	}
	sign, digits := n.cutSign(text)
	for _, guess := range []func(text, sign, digits string) error{
		n.guessSpace, n.guessSign, n.guessScript, n.guessComma, n.guessUnderscore, n.guessRadix,
		n.guessUnit, n.guessPoint, n.guessZeros, n.guessFiner,
	} {
		if err := guess(text, sign, digits); err != nil {
			return err
		}
	}
	return n.error(text, "is not a number", n.write, "")
}

// offer makes an error with the candidate as its fix if that is a value in range, and one
// without if it is not.
func (n notation) offer(text, problem, instead, candidate string) error {
	if n.accepts(candidate) {
		return n.fixed(text, problem, instead, candidate)
	}
	return n.error(text, problem, n.write, "")
}

func (n notation) guessSpace(text, _, _ string) error {
	trimmed := strings.TrimSpace(text)
	switch {
	case trimmed == "":
		return n.error(text, "is empty", n.write, "")
	case trimmed != text:
		return n.offer(text, "has a space around it", "write it without:", trimmed)
	}
	return nil
}

// guessSign knows the signs that a word processor puts in for a hyphen.
func (n notation) guessSign(text, sign, digits string) error {
	rest := strings.TrimLeft(digits, "+-\u2010\u2011\u2012\u2013\u2014\u2212\uff0b\uff0d")
	if rest == digits {
		return nil
	}
	switch first := digits[:len(digits)-len(rest)]; {
	case sign != "" || first == "--" || first == "++":
		return n.error(text, "has two signs", n.write, "")
	case n.sign == signNone:
		return n.error(text, "has a sign", n.write, "")
	case first == "+":
		return n.offer(text, "has a plus sign", "write it without:", rest)
	default:
		return n.offer(text, "has a typographic minus", "write a plain one:", "-"+rest)
	}
}

func (n notation) guessScript(text, _, digits string) error {
	for _, r := range digits {
		if r > unicode.MaxASCII && unicode.IsDigit(r) {
			return n.error(text, "has digits that are not the plain 0 to 9", n.write, "")
		}
	}
	return nil
}

func (n notation) guessComma(text, sign, digits string) error {
	switch {
	case !strings.Contains(digits, ","):
		return nil
	case strings.Count(digits, ",") == 1 && !strings.Contains(digits, ".") && n.places > 0:
		return n.offer(text, "has a decimal comma", "write a point:", sign+strings.Replace(digits, ",", ".", 1))
	}
	return n.error(text, "has a comma", n.write, "")
}

func (n notation) guessUnderscore(text, sign, digits string) error {
	if !strings.Contains(digits, "_") {
		return nil
	}
	return n.offer(text, "has an underscore", "write digits only:", sign+strings.ReplaceAll(digits, "_", ""))
}

func (n notation) guessRadix(text, _, digits string) error {
	lower := strings.ToLower(digits)
	if strings.HasPrefix(lower, "0x") || strings.HasPrefix(lower, "0b") || strings.HasPrefix(lower, "0o") {
		return n.error(text, "is not written in decimal digits", n.write, "")
	}
	mantissa, exponent, found := strings.Cut(lower, "e")
	if found && isDigits(strings.Replace(mantissa, ".", "", 1)) && isDigits(strings.TrimLeft(exponent, "+-")) {
		return n.error(text, "has an exponent", n.write, "")
	}
	return nil
}

// guessUnit offers the bare number only where the unit is the one understood.
func (n notation) guessUnit(text, sign, digits string) error {
	number := strings.TrimRightFunc(digits, func(r rune) bool { return !unicode.IsDigit(r) && r != '.' })
	unit := strings.TrimSpace(digits[len(number):])
	switch {
	case number == "" || unit == "" || !isDigits(number[:1]) && number[0] != '.':
		return nil
	case strings.EqualFold(unit, n.unit):
		return n.offer(text, "has a unit", "write the number alone:", sign+number)
	}
	return n.error(text, "has something after the number", n.write, "")
}

func (n notation) guessPoint(text, sign, digits string) error {
	whole, fraction, found := strings.Cut(digits, ".")
	switch {
	case !found || digits == ".":
		return nil
	case strings.Contains(fraction, "."):
		return n.error(text, "has two points", n.write, "")
	case n.places == 0 && strings.Trim(fraction, "0") == "":
		return n.offer(text, "has a point", "write a whole number:", sign+whole)
	case n.places == 0:
		return n.error(text, "is not a whole number", n.write, "")
	case whole == "":
		return n.offer(text, "has no digit before the point", "write", sign+"0"+digits)
	case fraction == "":
		return n.offer(text, "ends in a point", "write", sign+whole)
	}
	return nil
}

func (n notation) guessZeros(text, sign, digits string) error {
	whole, _, _ := strings.Cut(digits, ".")
	rest := strings.TrimLeft(digits, "0")
	if len(whole) < 2 || rest == digits {
		return nil
	}
	if rest == "" || rest[0] == '.' {
		rest = "0" + rest
	}
	return n.offer(text, "begins with a zero too many", "write", sign+rest)
}

func (n notation) guessFiner(text, _, digits string) error {
	whole, fraction, _ := strings.Cut(digits, ".")
	switch {
	case !isDigits(whole) || fraction != "" && !isDigits(fraction):
		return nil
	case len(whole) > longestWhole:
		return n.error(text, "is far too large", n.write, "")
	case strings.Trim(fraction[min(n.places, len(fraction)):], "0") == "":
		short := strings.TrimSuffix(digits, fraction[min(n.places, len(fraction)):])
		return n.offer(text, "has more decimals than it needs", "write", short)
	}
	limit := fmt.Sprintf("write at most %d decimals", n.places)
	if n.places == 1 {
		limit = "write at most one decimal"
	}
	return n.error(text, "is finer than "+n.finest, limit, "")
}
