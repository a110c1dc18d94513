package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"passband.example/plandiff/signal"
)

// Mode is how a channel sends a voice.
type Mode string

// The modes that a plan knows.
const (
	ModeFM  Mode = "fm"
	ModeDMR Mode = "dmr"
)

// Band is a range of frequencies that a radio tunes, both ends included.
type Band struct{ Low, High signal.Hertz }

// ParseBand reads "144-148", in MHz.
func ParseBand(text string) (Band, error) {
	low, high, ok := strings.Cut(text, "-")
	if !ok {
		return Band{}, fmt.Errorf("%q is not a range of frequencies; write both ends in MHz, such as 144-148", clip(text))
	}
	var b Band
	var err error
	if b.Low, err = signal.ParseMegahertz(strings.TrimSpace(low)); err != nil {
		return Band{}, err
	}
	if b.High, err = signal.ParseMegahertz(strings.TrimSpace(high)); err != nil {
		return Band{}, err
	}
	if b.Low >= b.High {
		return Band{}, fmt.Errorf("the band %q ends before it begins; write the lower end first", clip(text))
	}
	return b, nil
}

// String gives the band in MHz, as ParseBand reads it.
func (b Band) String() string {
	return shortMegahertz(b.Low) + "-" + shortMegahertz(b.High)
}

// Holds reports whether f lies in the band, its ends included.
func (b Band) Holds(f signal.Hertz) bool { return b.Low <= f && f <= b.High }

func shortMegahertz(f signal.Hertz) string {
	return strings.TrimSuffix(strings.TrimRight(f.String(), "0"), ".")
}

// Date is a calendar day, as in 2027-06-01.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// ParseDate reads a day in the form of ISO 8601: 2027-06-01.
func ParseDate(text string) (Date, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a day; write year-month-day, such as 2027-06-01", clip(text))
	}
	return DateOf(t), nil
}

// DateOf gives the day of t in t's own time zone.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// String gives the day as ParseDate reads it.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// Before reports whether d comes before e.
func (d Date) Before(e Date) bool {
	return cmp.Or(cmp.Compare(d.Year, e.Year), cmp.Compare(d.Month, e.Month), cmp.Compare(d.Day, e.Day)) < 0
}

// Charset is the set of characters that a radio can show.
type Charset string

// Holds reports whether the radio can show r.
func (c Charset) Holds(r rune) bool {
	switch c {
	case "", "ascii":
		return ' ' <= r && r <= '~'
	case "latin-1":
		return ' ' <= r && r <= '~' || 0xA0 <= r && r <= 0xFF
	case "unicode":
		return unicode.IsPrint(r)
	}
	runes := []rune(c)
	for i := 0; i < len(runes); i++ {
		if i+2 < len(runes) && runes[i+1] == '-' {
			if runes[i] <= r && r <= runes[i+2] {
				return true
			}
			i += 2
			continue
		}
		if runes[i] == r {
			return true
		}
	}
	return false
}

// parseCount reads a whole number of things, 0 to 10 million.
func parseCount(text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > 10_000_000 || !isDigits(text) {
		return 0, fmt.Errorf("%q is not a whole number; write digits alone, at most 10000000", clip(text))
	}
	return n, nil
}

// parseSeconds reads a time-out: 0 to 3600 seconds.
func parseSeconds(text string) (int, error) {
	n, err := parseCount(text)
	if err != nil || n > 3600 {
		return 0, fmt.Errorf("%q is not a time in seconds from 0 to 3600; write digits alone", clip(text))
	}
	return n, nil
}

// parsePercent reads a share of the time: 1 to 100.
func parsePercent(text string) (int, error) {
	n, err := parseCount(text)
	if err != nil || n < 1 || n > 100 {
		return 0, fmt.Errorf("%q is not a share of the time from 1 to 100 percent; write digits alone", clip(text))
	}
	return n, nil
}

// parseLoss reads a loss in decibels.
func parseLoss(text string) (signal.Decibels, error) {
	loss, err := signal.ParseDecibels(text)
	if err == nil && loss < 0 {
		return 0, fmt.Errorf("%q would be a gain; a loss is written without a sign, as in 1.5", clip(text))
	}
	return loss, err
}

// parseDistance reads how near people come, in meters.
func parseDistance(text string) (signal.Meters, error) {
	distance, err := signal.ParseMeters(text)
	if err != nil || distance < 0 {
		return 0, fmt.Errorf("%q is not a distance from 0 to 10000 m; write meters without a unit, as in 30 or 12.5", clip(text))
	}
	return distance, nil
}

// parseArea reads a part of a country by its code in ISO 3166-2: US-AL. Whether there are rows
// for it is for package rf to say.
func parseArea(text string) (string, error) {
	code := strings.ToUpper(text)
	country, part, parted := strings.Cut(code, "-")
	letters := strings.Trim(country, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == "" && strings.Trim(part, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") == ""
	if !parted || !letters || len(country) != 2 || len(part) < 1 || len(part) > 3 {
		return "", fmt.Errorf("%q is not a part of a country; write its code by ISO 3166-2, as in US-AL", clip(text))
	}
	return code, nil
}

// FirstEdition is the edition of the first plans.
const FirstEdition = 2026

// parseEdition reads the year whose rules may block.
func parseEdition(text string) (int, error) {
	n, err := parseCount(text)
	if err != nil || n < FirstEdition || n > 2999 {
		return 0, fmt.Errorf("%q is not an edition; the first is %d", clip(text), FirstEdition)
	}
	return n, nil
}

func isDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || '9' < s[i] {
			return false
		}
	}
	return s != ""
}

// parsePower reads low, medium, high or a number of watts.
func parsePower(text string) (string, error) {
	switch text {
	case "low", "medium", "high":
		return text, nil
	}
	p, err := signal.ParseWatts(text)
	if err != nil {
		return "", fmt.Errorf("%q is not a power; write low, medium, high or watts, such as 5", clip(text))
	}
	return unitless(p), nil
}

// parseYesNo reads yes or no as a person writes it.
func parseYesNo(text string) (bool, error) {
	switch strings.ToLower(text) {
	case "yes", "true", "on":
		return true, nil
	case "no", "false", "off":
		return false, nil
	}
	return false, fmt.Errorf("%q is neither yes nor no; write one of them", clip(text))
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// oneOf makes a parser for a closed list of words. "polite" is one edit away
// from "impolite" and means the opposite, so words that begin with the text are
// asked about before one that looks like it is offered.
func oneOf(words ...string) func(string) (string, error) {
	return func(text string) (string, error) {
		var asked []string
		for _, w := range words {
			switch {
			case strings.EqualFold(text, w):
				return w, nil
			case strings.HasPrefix(w, strings.ToLower(text)):
				asked = append(asked, w)
			}
		}
		if fix := Nearest(text, words); fix != "" && len(asked) == 0 {
			return "", fmt.Errorf("%q is not known here; did you mean %s", clip(text), fix)
		}
		if len(asked) == 0 {
			asked = words
		}
		if first, _, several := strings.Cut(text, " "); several && slices.Contains(words, first) {
			return "", fmt.Errorf("%q is not one word; put a comma between them", clip(text))
		}
		return "", fmt.Errorf("%q is not known here; write one of: %s", clip(text), strings.Join(asked, ", "))
	}
}
