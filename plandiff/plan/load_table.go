package plan

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// A table is a file in CSV whose first line names its columns, being read.
type table struct {
	l       *loader
	s       *Section
	csv     *csv.Reader
	columns []*Field // what stands in each column; nil: the other spelling of one, see Neighbor

	data  []byte
	line  int // a line, and the offset of its first byte
	start int
}

func (l *loader) newTable(s *Section, data []byte) *table {
	return &table{l: l, s: s, csv: csv.NewReader(bytes.NewReader(data)), data: data, line: 1}
}

// readTable reads a table in which each field is a column.
func (l *loader) readTable(s *Section, data []byte) {
	t := l.newTable(s, data)
	t.csv.ReuseRecord = true
	t.csv.TrimLeadingSpace = true
	if !t.head() {
		return
	}
	t.rows(t.record)
}

// rows reads what is left of the table, row by row.
func (t *table) rows(use func(cells []string)) {
	for {
		cells, err := t.csv.Read()
		switch {
		case err == nil:
			use(cells)
		case errors.Is(err, io.EOF):
			return
		default:
			t.mistake(err)
		}
	}
}

// head finds out which column holds what.
func (t *table) head() bool {
	head, err := t.csv.Read()
	if errors.Is(err, io.EOF) {
		return false
	}
	if err != nil {
		t.mistake(err)
		return false
	}
	var titles []string
	for i, title := range head {
		name := strings.ToLower(strings.TrimSpace(title))
		switch {
		case t.s.Field(name) == nil && !t.respells(name):
			t.unknown(i, title)
			return false
		case slices.Contains(titles, name):
			t.l.problem(DuplicateKey, t.place(i), fmt.Sprintf("the column %q stands there twice", name), "only one of the two can be meant", "take one out")
			return false
		}
		titles, t.columns = append(titles, name), append(t.columns, t.s.Field(name))
	}
	return t.hasColumns(titles)
}

// hasColumns notes a column without which the table says nothing.
func (t *table) hasColumns(titles []string) bool {
	for _, title := range t.s.columns() {
		if mustHave(t.s.Kind, title) && !slices.Contains(titles, title) {
			t.l.problem(BadSyntax, t.place(0), fmt.Sprintf("the column %q is missing", title), "the first line of the table names its columns", "let the table begin with the line "+t.s.head)
			return false
		}
	}
	return true
}

// mustHave names the columns that each row must have.
func mustHave(kind Kind, column string) bool {
	switch kind {
	case KindOperator:
		return column == "id" || column == "callsign"
	case KindNeighbor:
		return column == "output"
	}
	return false
}

func (t *table) unknown(i int, title string) {
	known := t.s.columns()
	fix := "the columns are " + strings.Join(known[:len(known)-1], ", ") + " and " + known[len(known)-1]
	if near := Nearest(strings.TrimSpace(title), known); near != "" {
		fix = "did you mean " + near + "?"
	}
	if strings.ContainsAny(title, ";\t") {
		fix = "put commas between the columns: save the table as comma-separated values"
	}
	t.l.problem(UnknownKey, t.place(i), fmt.Sprintf("%q is not a column of this table", clip(title)), "the first line of the table names its columns", fix)
}

// record reads one row.
func (t *table) record(cells []string) {
	r, before := t.s.create(), len(t.l.plan.Problems)
	r.setKey(Value[string]{At: t.place(0)})
	for i, text := range cells {
		if f := t.columns[i]; f != nil && (strings.TrimSpace(text) != "" || mustHave(t.s.Kind, f.Name)) {
			f.cell(t.l, r, strings.Clone(strings.TrimSpace(text)), t.place(i))
		}
	}
	if i := slices.Index(t.columns, nil); i >= 0 {
		t.respell(r, strings.TrimSpace(cells[i]), i)
	}
	if len(t.l.plan.Problems) > before {
		r.setPartly()
	}
	r.setKey(Value[string]{V: t.s.keyOf(r), At: r.Place()})
	t.l.records = append(t.l.records, r)
}

func loadCell[T any](l *loader, name string, c codec[T], text string, at Place) Value[T] {
	v, err := c.value(text)
	v.At = at
	if err != nil {
		v.Bad = true
		l.problem(BadValue, at, name+": "+err.Error(), "", "")
	}
	return v
}

// place gives the place of a cell of the row that was read last.
func (t *table) place(i int) Place {
	return t.at(t.csv.FieldPos(i))
}

// at turns a column in bytes into one in characters. Lines are asked for in
// their order.
func (t *table) at(line, col int) Place {
	for ; t.line < line; t.line++ {
		t.start += 1 + bytes.IndexByte(t.data[t.start:], '\n')
	}
	before := t.data[t.start:min(t.start+max(col, 1)-1, len(t.data))]
	return Place{t.l.file, int32(line), int32(1 + utf8.RuneCount(before))}
}

// mistake notes why a row cannot be read.
func (t *table) mistake(err error) {
	pe := &csv.ParseError{Line: 1, StartLine: 1, Column: 1, Err: err}
	_ = errors.As(err, &pe)
	at := t.at(pe.StartLine, 1)
	row := t.data[t.start:max(t.start, int(t.csv.InputOffset()))]
	what, fix := "the text is not a table in CSV here", "look for a quote or a comma too many"
	switch {
	case errors.Is(err, csv.ErrFieldCount):
		what, fix = "this row has another number of columns than the first line", "a comma is missing or too many; a name with a comma needs quotes"
	case errors.Is(err, csv.ErrQuote) && bytes.Count(row, []byte(`"`))%2 == 1:
		what, fix = "a quote that opens in this row is not closed", "close it before the end of the line"
	case errors.Is(err, csv.ErrQuote):
		at = t.at(pe.Line, pe.Column)
		what, fix = "there is text behind the closing quote", `put quotes around the whole text, and write "" for a quote inside it`
	case errors.Is(err, csv.ErrBareQuote):
		at = t.at(pe.Line, pe.Column)
		what, fix = "there is a quote inside a text that does not begin with one", `put quotes around the whole text, and write "" for a quote inside it`
	}
	t.l.problem(BadSyntax, at, what, "this row is missing from the plan", fix)
}
