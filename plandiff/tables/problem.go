package tables

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A Problem is a reason why a row of a table could not be read or written.
type Problem struct {
	File   string `json:"file"`
	Row    int    `json:"row,omitempty"`    // as a spreadsheet program numbers it: 1 is the headers; 0: the file as a whole
	Column int    `json:"column,omitempty"` // from 1; 0: the row as a whole
	Header string `json:"header,omitempty"` // of the column
	What   string `json:"what"`             // what is wrong
	Fix    string `json:"fix,omitempty"`    // what to do
}

// Error gives "file row 7, column C (Output): what; what to do".
func (p Problem) Error() string {
	if p.Fix == "" {
		return p.Where() + ": " + p.What
	}
	return p.Where() + ": " + p.What + "; " + p.Fix
}

// Where gives "file row 7, column C (Output)".
func (p Problem) Where() string {
	where := p.File
	if p.Row > 0 {
		where += fmt.Sprintf(" row %d", p.Row)
	}
	if p.Column > 0 {
		where += fmt.Sprintf(", column %s (%s)", Letters(p.Column), clip(p.Header))
	}
	return where
}

// Letters names a column as spreadsheet programs do: 1 is A, 27 is AA.
func Letters(column int) string {
	var name string
	for ; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}

// A Failure is all that kept a layout from being used or a table from being written.
type Failure []error

// Error gives one reason a line.
func (f Failure) Error() string { return errors.Join(f...).Error() }

// Unwrap gives the reasons.
func (f Failure) Unwrap() []error { return f }

// parted cuts the message of a parser into what is wrong and what to do.
func parted(err error) (what, fix string) {
	var bad *plan.Problem
	if errors.As(err, &bad) {
		return bad.What, bad.Fix
	}
	what = err.Error()
	if i := strings.LastIndex(what, "; "); i > 0 {
		return what[:i], what[i+len("; "):]
	}
	return what, ""
}

// noRadio says which classes of radio there are.
func noRadio(p *plan.Plan, key string) error {
	var keys []string
	for _, r := range p.Radios.Sorted() {
		keys = append(keys, r.Key.V)
	}
	if len(keys) == 0 {
		return fmt.Errorf("there is no radio %q: the plan has no class of radio; leave --radio out for the whole plan", clip(key))
	}
	if near := plan.Nearest(key, keys); near != "" {
		return fmt.Errorf("there is no radio %q; did you mean %s?", clip(key), near)
	}
	return fmt.Errorf("there is no radio %q; the plan has %s", clip(key), strings.Join(keys, ", "))
}

// A tally counts what is said once however often it is so, in the order in which it
// came.
type tally struct {
	said  []string
	count map[string]int
}

// add counts one more of what a sentence with one %s for its number says.
func (t *tally) add(sentence string) {
	if t.count == nil {
		t.count = make(map[string]int)
	}
	if t.count[sentence]++; t.count[sentence] == 1 {
		t.said = append(t.said, sentence)
	}
}

// lines gives the sentences, with what they are about counted.
func (t *tally) lines(one, many string) []string {
	lines := make([]string, len(t.said))
	for i, s := range t.said {
		n, word := t.count[s], many
		if n == 1 {
			word = one
		}
		lines[i] = fmt.Sprintf("%d %s: %s", n, word, s)
	}
	return lines
}

// sortProblems orders by file, row and column, and drops what was said twice.
func sortProblems(ps []Problem) []Problem {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		if c := strings.Compare(a.File, b.File); c != 0 {
			return c
		}
		if a.Row != b.Row {
			return a.Row - b.Row
		}
		return a.Column - b.Column
	})
	return slices.Compact(ps)
}
