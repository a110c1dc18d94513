package tables

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"

	"passband.example/plandiff/plan"
)

// A File is a table as it is on a disk.
type File struct {
	Name string
	Data []byte
}

// An Export is the tables of a plan, and what they do not tell.
type Export struct {
	Files   []File
	Rows    map[string]int // below the headers, by file
	LeftOut []plan.LeftOut // channels of the radio's zones that it cannot use
	Missing []Missing      // what the plan says and no column shows
	Notices []string       // what reading the tables back cannot tell apart
}

// Write gives the tables of a layout for one class of radio, the key of which is
// radio, or for the whole plan where that is "". The plan must have loaded without
// problems.
//
// The error is a Failure with every cell that cannot be written, and then there are
// no files: what a column cannot show exactly is never shown otherwise.
func Write(x *plan.Expansion, radio string, l *Layout) (*Export, error) {
	v, err := newView(x, radio)
	if err != nil {
		return nil, err
	}
	out := &Export{Rows: map[string]int{}, Notices: slices.Clone(l.Notices)}
	var failed Failure
	for _, t := range l.Tables {
		w := &writer{layout: l, table: t, view: v}
		data, err := w.write()
		if err != nil {
			return nil, err
		}
		for _, p := range sortProblems(w.problems) {
			failed = append(failed, p)
		}
		out.Files = append(out.Files, File{t.File, data})
		out.Rows[t.File] = len(w.rows) - 1
		out.Notices = append(out.Notices, w.notices()...)
	}
	if len(failed) > 0 {
		return nil, failed
	}
	if v.fit != nil {
		out.LeftOut = v.fit.LeftOut
		out.Notices = append(out.Notices, v.cutLabels()...)
	}
	out.Missing = missing(x.Plan, l)
	return out, nil
}

// A writer makes one table.
type writer struct {
	layout   *Layout
	table    *Table
	view     *view
	rows     [][]string
	problems []Problem
	empty    int   // rows that would have been empty
	inexact  []int // cells of each column that are read back as something else
	readings []reading
}

func (w *writer) write() ([]byte, error) {
	head := make([]string, len(w.table.Columns))
	for i, c := range w.table.Columns {
		head[i] = c.Header
		w.readings = append(w.readings, reading{column: c, comma: w.layout.Comma})
	}
	w.inexact = make([]int, len(head))
	w.check(head)
	w.rows = [][]string{head}
	for _, it := range w.table.source.items(w.view) {
		for _, texts := range w.spread(it) {
			w.row(texts)
		}
	}
	if len(w.problems) > 0 {
		return nil, nil
	}
	return w.bytes()
}

// spread gives the values of each row that an item makes: one, or one for each item of
// the list that is spread. A list without items makes one row, so that it is not lost.
func (w *writer) spread(it item) [][][]string {
	values := make([][]string, len(w.table.Columns))
	most := 1
	for i, c := range w.table.Columns {
		if c.value != nil {
			values[i] = c.value.get(w.view, it)
			if w.table.spread(c) {
				most = max(most, len(values[i]))
			}
		}
	}
	if w.table.each == nil {
		return [][][]string{values}
	}
	rows := make([][][]string, most)
	for n := range rows {
		rows[n] = slices.Clone(values)
		for i, c := range w.table.Columns {
			if w.table.spread(c) {
				rows[n][i] = values[i][min(n, len(values[i])):min(n+1, len(values[i]))]
			}
		}
	}
	return rows
}

// row writes the cells of one row.
func (w *writer) row(values [][]string) {
	cells := make([]string, len(values))
	something := false
	for i, c := range w.table.Columns {
		cell, err := c.write(values[i], w.layout.Comma)
		if err != nil {
			what, fix := parted(err)
			w.problem(i, what, fix)
			continue
		}
		if cells[i] = cell; c.value != nil {
			something = something || cell != ""
			if back, err := w.readings[i].read(cell); err != nil || !slices.Equal(back, values[i]) {
				w.inexact[i]++
			}
		}
	}
	if !something {
		w.empty++
		return
	}
	w.check(cells)
	w.rows = append(w.rows, cells)
}

// check notes what the encoding of the layout does not have.
func (w *writer) check(cells []string) {
	if w.layout.Encoding != Latin1 {
		return
	}
	for i, cell := range cells {
		for _, r := range cell {
			if !Latin1.holds(r) {
				w.problem(i, fmt.Sprintf("%q holds %q, which %s does not have", clip(cell), r, Latin1), "let the layout say encoding: utf-8, or give it another label")
				break
			}
		}
	}
}

func (w *writer) problem(column int, what, fix string) {
	if len(w.problems) < MaxProblems {
		w.problems = append(w.problems, Problem{w.table.File, len(w.rows) + 1, column + 1, w.table.Columns[column].Header, what, fix})
	}
}

// bytes gives the table as RFC 4180 has it, in the encoding of the layout.
func (w *writer) bytes() ([]byte, error) {
	var buf bytes.Buffer
	out := csv.NewWriter(&buf)
	out.Comma, out.UseCRLF = w.layout.Separator, !w.layout.LineFeed
	if err := out.WriteAll(w.rows); err != nil {
		return nil, err
	}
	return w.layout.Encoding.encode(buf.Bytes())
}

// notices says what of the table is read back as something else.
func (w *writer) notices() []string {
	var said []string
	for i, n := range w.inexact {
		if n > 0 {
			c := w.table.Columns[i]
			said = append(said, fmt.Sprintf("%s, column %s (%s): %d of %d cells do not tell by themselves what the plan says; where they stay as they are, nothing is changed by reading them back", w.table.File, Letters(i+1), c.Header, n, len(w.rows)-1))
		}
	}
	if w.empty > 0 {
		said = append(said, fmt.Sprintf("%s: %d rows would be empty and are left out; give the table a column for the key", w.table.File, w.empty))
	}
	return said
}
