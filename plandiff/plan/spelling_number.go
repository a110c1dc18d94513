package plan

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"passband.example/plandiff/signal"
)

// longestNumber is how many characters of a number package signal reads, without sign.
const longestNumber = 40

// A sign says how the sign of a number is written.
type sign uint8

const (
	unsigned sign = iota // none
	minus                // a minus, where it is below zero
	both                 // always one
)

// A decimal is a number as package signal reads it: no zeros before it, at most so many
// places that are not zero.
type decimal struct {
	name      string
	places    int
	low, high int64 // times ten to the places; of the size alone where both signs are written
	sign      sign
}

// spelling gives the texts of the number.
func (d decimal) spelling() Spelling {
	form, low := "", d.low
	switch d.sign {
	case unsigned:
		form = d.sizes(d.low, d.high)
	case minus:
		form = d.sizes(max(d.low, 0), d.high) + "|-(?:" + d.sizes(0, max(-d.low, 0)) + ")"
	case both:
		form, low = "[+-](?:"+d.sizes(d.low, d.high)+")", -d.high
	}
	return Spelling{
		Name: d.name, Pattern: "^(?:" + form + ")$", Longest: longestNumber + 1,
		Number: &Range{Low: d.text(low), High: d.text(d.high), Whole: d.places == 0},
	}
}

// text gives a value in digits.
func (d decimal) text(value int64) json.Number {
	if d.places == 0 {
		return json.Number(strconv.FormatInt(value, 10))
	}
	mark := ""
	if value < 0 {
		mark, value = "-", -value
	}
	digits := fmt.Sprintf("%0*d", d.places+1, value)
	whole, fraction := digits[:len(digits)-d.places], strings.TrimRight(digits[len(digits)-d.places:], "0")
	if fraction == "" {
		return json.Number(mark + whole)
	}
	return json.Number(mark + whole + "." + fraction)
}

// sizes gives the pattern of the sizes from low to high. low is whole or a power of ten
// below one; high is whole, or has all nines behind its point.
func (d decimal) sizes(low, high int64) string {
	unit := int64(1)
	for range d.places {
		unit *= 10
	}
	var forms []string
	first, last := low/unit, high/unit
	if low%unit != 0 {
		forms = append(forms, fmt.Sprintf("%d%s", first, d.fractionFrom(low%unit)))
		first++
	}
	if high%unit == 0 {
		forms = append(forms, fmt.Sprintf("%d%s", last, d.zeros()))
		last--
	}
	if first <= last {
		forms = append(forms, "(?:"+wholes(first, last)+")"+d.fraction())
	}
	return strings.Join(forms, "|")
}

// fraction gives the pattern of any decimals, zeros that of none that count.
func (d decimal) fraction() string {
	if d.places == 0 {
		return ""
	}
	return fmt.Sprintf(`(?:\.[0-9]{1,%d}0*)?`, d.places)
}

func (d decimal) zeros() string {
	if d.places == 0 {
		return ""
	}
	return `(?:\.0+)?`
}

// fractionFrom gives the pattern of the decimals that make at least a power of ten: one of
// the first of them is not zero.
func (d decimal) fractionFrom(least int64) string {
	var forms []string
	for zeros := 0; zeros < d.places && least <= power(d.places-zeros-1); zeros++ {
		forms = append(forms, fmt.Sprintf(`0{%d}[1-9][0-9]{0,%d}0*`, zeros, d.places-zeros-1))
	}
	return `\.(?:` + strings.Join(forms, "|") + ")"
}

func power(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

// wholes gives the pattern of the whole numbers from low to high, without zeros before.
func wholes(low, high int64) string {
	var forms []string
	for from := low; from <= high; {
		digits := len(strconv.FormatInt(from, 10))
		to := min(high, power(digits)-1)
		forms = append(forms, alike(strconv.FormatInt(from, 10), strconv.FormatInt(to, 10)))
		from = to + 1
	}
	return strings.Join(forms, "|")
}

// alike gives the pattern of the numbers between two that have as many digits.
func alike(from, to string) string {
	rest := len(from) - 1
	class := func(a, b byte) string {
		if a == b {
			return string(a)
		}
		return "[" + string(a) + "-" + string(b) + "]"
	}
	switch {
	case rest == 0:
		return class(from[0], to[0])
	case strings.Trim(from[1:], "0") == "" && strings.Trim(to[1:], "9") == "":
		return class(from[0], to[0]) + fmt.Sprintf("[0-9]{%d}", rest)
	case from[0] == to[0]:
		return from[:1] + "(?:" + alike(from[1:], to[1:]) + ")"
	}
	nines, zeros := strings.Repeat("9", rest), strings.Repeat("0", rest)
	forms := []string{from[:1] + "(?:" + alike(from[1:], nines) + ")"}
	if from[0]+1 < to[0] {
		forms = append(forms, class(from[0]+1, to[0]-1)+fmt.Sprintf("[0-9]{%d}", rest))
	}
	return strings.Join(append(forms, to[:1]+"(?:"+alike(zeros, to[1:])+")"), "|")
}

// counted is the spelling of a whole number that may have zeros before it.
func counted(name string, low, high int64) func() Spelling {
	return func() Spelling {
		return Spelling{
			Name: name, Pattern: "^0*(?:" + wholes(low, high) + ")$",
			Number: &Range{Low: json.Number(fmt.Sprint(low)), High: json.Number(fmt.Sprint(high)), Whole: true},
		}
	}
}

// toneSpelling is that of a tone: hertz with a decimal, the whole hertz that can be no DCS
// code, and DCS codes.
func toneSpelling() Spelling {
	var whole []string
	for hertz := 33; hertz <= 300; hertz++ {
		if _, err := signal.ParseTone(strconv.Itoa(hertz)); err == nil {
			whole = append(whole, strconv.Itoa(hertz))
		}
	}
	return Spelling{
		Name: "tone", Number: &Range{Low: "33", High: "300"},
		Pattern: `^(?:(?:` + wholes(33, 299) + `)\.[0-9]|300\.0|` + strings.Join(whole, "|") + `|[Dd][0-7]{3}[NnIi])$`,
	}
}
