package signal

import "strings"

// Grid is a Maidenhead locator of two to five pairs of characters, written JN58td25kx. It
// names a cell, not a point. The zero value stands for one that is not given.
//
// The system is the IARU Region 1 VHF working group's (Maidenhead, 1980), section 5.12
// of its VHF Managers Handbook, on WGS 84 since Lillehammer, 1999. The fifth pair
// is common practice, no source.
type Grid string

// gridPairs is how many characters there are to choose from in each pair, and the first.
var gridPairs = [5]struct {
	base  int64
	first byte
}{{18, 'A'}, {10, '0'}, {24, 'a'}, {10, '0'}, {24, 'a'}}

const (
	shortestGrid = 4
	longestGrid  = 10
	writeGrid    = "write two letters A to R, two digits, two letters a to x, as in DN70 or DN70vc"
)

// ParseGrid reads a locator of 4, 6, 8 or 10 characters in any case. It is written with
// its first pair in capitals and the other letters small.
func ParseGrid(text string) (Grid, error) {
	grid, ok := scanGrid(text)
	if !ok {
		return "", explainGrid(text)
	}
	return grid, nil
}

func scanGrid(text string) (grid Grid, ok bool) {
	if len(text) < shortestGrid || len(text) > longestGrid || len(text)%2 != 0 {
		return "", false
	}
	chars := []byte(text)
	for i, char := range chars {
		digit, ok := gridDigit(i, char)
		if !ok {
			return "", false
		}
		chars[i] = gridPairs[i/2].first + byte(digit)
	}
	return Grid(chars), true
}

// gridDigit returns the value of a character at its place, in either case.
func gridDigit(place int, char byte) (digit int64, ok bool) {
	pair := gridPairs[place/2]
	first := pair.first
	if first != '0' {
		char, first = char|0x20, first|0x20
	}
	digit = int64(char) - int64(first)
	return digit, digit >= 0 && digit < pair.base
}

// explainGrid finds the likeliest reason why text is not a locator.
func explainGrid(text string) error {
	refuse := func(problem, instead, fix string) error {
		return &Error{Kind: "grid", Text: text, Problem: problem, Instead: instead, Fix: fix}
	}
	trimmed := strings.TrimSpace(text)
	switch {
	case trimmed == "":
		return refuse("is empty", writeGrid, "")
	case trimmed != text:
		if grid, ok := scanGrid(trimmed); ok {
			return refuse("has a space around it", "write it without: "+string(grid), string(grid))
		}
	case len(text) < shortestGrid:
		return refuse("is too short to place a site", writeGrid, "")
	case len(text) > longestGrid:
		return refuse("has more than ten characters", writeGrid, "")
	case len(text)%2 != 0:
		return refuse("has an odd number of characters, and they come in pairs", writeGrid, "")
	default:
		if grid, ok := scanGrid(swapLookalikes(text)); ok {
			return refuse("has a letter for a digit or a digit for a letter", "did you mean "+string(grid), string(grid))
		}
	}
	return refuse("is not a locator", writeGrid, "")
}

// swapLookalikes puts digits for the letters O and I where digits belong, and letters for
// the digits where letters belong.
func swapLookalikes(text string) string {
	swapped := []byte(text)
	for i := range swapped {
		from, to := "01", "OI"
		if gridPairs[i/2].first == '0' {
			from, to = "OoIil", "00111"
		}
		if at := strings.IndexByte(from, swapped[i]); at >= 0 {
			swapped[i] = to[at]
		}
	}
	return string(swapped)
}

// String returns the locator.
func (g Grid) String() string { return string(g) }

// MarshalText returns the locator.
func (g Grid) MarshalText() ([]byte, error) { return []byte(g), nil }

// UnmarshalText reads what ParseGrid reads, and nothing as the zero value.
func (g *Grid) UnmarshalText(text []byte) error { return unmarshalOptional(g, text, ParseGrid) }
