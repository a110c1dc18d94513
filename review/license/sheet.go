package license

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"passband.example/plandiff/signal"
)

// cells are the cells of one line of a table, read by name. What is wrong with them
// gathers in problems, so that all of it is said at once.
type cells struct {
	file     string
	line     int
	columns  []string
	values   []string
	problems []error
}

// readSheet reads a CSV table with exactly the named columns, lines that begin with # left
// out, and turns each line into a T. It returns every problem of every line, joined.
func readSheet[T any](file string, data []byte, columns string, convert func(*cells) T) ([]T, error) {
	want := strings.Split(columns, ",")
	reader := csv.NewReader(bytes.NewReader(data))
	reader.Comment = '#'
	header, err := reader.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: no header line: %w", file, err)
	}
	if !slices.Equal(header, want) {
		return nil, fmt.Errorf("%s: the columns are %.200q; they must be %q", file, header, columns)
	}
	var all []T
	var problems []error
	seen := map[string]int{}
	for {
		values, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return all, errors.Join(problems...)
		}
		if err != nil {
			return nil, errors.Join(append(problems, fmt.Errorf("%s: %w", file, err))...)
		}
		line, _ := reader.FieldPos(0)
		c := &cells{file: file, line: line, columns: want, values: values}
		key := strings.Join(values, "\x00")
		if first, twice := seen[key]; twice {
			c.problem("is the same as line %d; take one of them out", first)
		}
		seen[key] = line
		all = append(all, convert(c))
		problems = append(problems, c.problems...)
	}
}

func (c *cells) problem(format string, args ...any) {
	c.problems = append(c.problems, fmt.Errorf("%s:%d: %s", c.file, c.line, fmt.Sprintf(format, args...)))
}

// text returns a cell, which may be empty.
func (c *cells) text(column string) string { return c.values[slices.Index(c.columns, column)] }

// need returns a cell that must not be empty.
func (c *cells) need(column string) string {
	text := c.text(column)
	if strings.TrimSpace(text) == "" {
		c.problem("%s is empty; every row needs it", column)
	}
	return text
}

// list returns the parts of a cell.
func (c *cells) list(column, separator string) []string {
	text := c.text(column)
	if text == "" {
		return nil
	}
	return strings.Split(text, separator)
}

// word returns which of the names stands in a cell.
func word[T ~uint8](c *cells, column string, all names[T]) T {
	text := c.text(column)
	if i := slices.Index(all, text); i >= 0 {
		return T(i)
	}
	c.problem("%s %.40q is none of %q", column, text, []string(all))
	return 0
}

// flag returns whether a cell says yes; the other word is nothing.
func (c *cells) flag(column string) bool {
	return word(c, column, names[uint8]{"", "yes"}) == 1
}

// megahertz reads a frequency in MHz, exactly. signal.ParseMegahertz ends at 10 GHz, where a
// plan ends; the tables go on.
func (c *cells) megahertz(column string) signal.Hertz {
	text := c.need(column)
	whole, decimals, _ := strings.Cut(text, ".")
	f, err := strconv.ParseUint(whole+(decimals + "000000")[:max(6, len(decimals))], 10, 64)
	if err != nil || len(decimals) > 6 || len(whole) > 6 {
		c.problem("%s %.40q is no frequency; write MHz with at most six decimals, as in 144.1", column, text)
		return 0
	}
	return signal.Hertz(f)
}

// optional reads a cell with read, and an empty one as zero.
func optional[T any](c *cells, column string, read func(string) T) (value T) {
	if c.text(column) != "" {
		return read(column)
	}
	return value
}

// hertz reads a width in whole hertz.
func (c *cells) hertz(column string) signal.Hertz { return c.width(column, c.text(column)) }

// width reads whole hertz that stand in a cell.
func (c *cells) width(column, text string) signal.Hertz {
	f, err := strconv.ParseUint(text, 10, 40)
	if err != nil || f == 0 {
		c.problem("%s %.40q is no width; write whole hertz, as in 12500", column, text)
	}
	return signal.Hertz(f)
}

// watts reads a power in watts.
func (c *cells) watts(column string) signal.Power {
	p, err := signal.ParseWatts(c.text(column))
	if err != nil {
		c.problem("%s: %v", column, err)
	}
	return p
}

// interval reads low_mhz and high_mhz, and sees that they are the right way round.
func (c *cells) interval() (low, high signal.Hertz) {
	low, high = c.megahertz("low_mhz"), c.megahertz("high_mhz")
	if low <= 0 || low >= high {
		c.problem("%s to %s is no range; the lower edge must be above zero and below the upper", low, high)
	}
	return low, high
}

// provenance reads source, edition, confidence and note.
func (c *cells) provenance() Provenance {
	p := Provenance{
		Source: c.need("source"), Edition: c.need("edition"), Note: c.text("note"),
		Confidence: word(c, "confidence", confidenceNames), File: c.file, Line: c.line,
	}
	return p
}
