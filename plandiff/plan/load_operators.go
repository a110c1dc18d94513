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

var operatorColumns = []string{"id", "callsign", "name"}

// A table is a file with the columns id, callsign and name, being read.
type table struct {
	l       *loader
	csv     *csv.Reader
	columns []int // what stands in each column, as an index of operatorColumns

	data  []byte
	line  int // a line, and the offset of its first byte
	start int
}

// readOperators reads a table of operators.
func (l *loader) readOperators(data []byte) {
	t := &table{l: l, csv: csv.NewReader(bytes.NewReader(data)), data: data, line: 1}
	t.csv.ReuseRecord = true
	t.csv.TrimLeadingSpace = true
	if !t.head() {
		return
	}
	for {
		row, err := t.csv.Read()
		switch {
		case err == nil:
			t.operator(row)
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
	for i, title := range head {
		column := slices.Index(operatorColumns, strings.ToLower(strings.TrimSpace(title)))
		switch {
		case column < 0:
			t.unknown(i, title)
			return false
		case slices.Contains(t.columns, column):
			t.l.problem(DuplicateKey, t.place(i), fmt.Sprintf("the column %q stands there twice", operatorColumns[column]), "only one of the two can be meant", "take one out")
			return false
		}
		t.columns = append(t.columns, column)
	}
	for i, title := range operatorColumns[:2] {
		if !slices.Contains(t.columns, i) {
			t.l.problem(BadSyntax, t.place(0), fmt.Sprintf("the column %q is missing", title), "the first line of the table names its columns", "let the table begin with the line id,callsign,name")
			return false
		}
	}
	return true
}

func (t *table) unknown(i int, title string) {
	fix := "the columns are id, callsign and name"
	if near := Nearest(strings.TrimSpace(title), operatorColumns); near != "" {
		fix = "did you mean " + near + "?"
	}
	if strings.ContainsAny(title, ";\t") {
		fix = "put commas between the columns: save the table as comma-separated values"
	}
	t.l.problem(UnknownKey, t.place(i), fmt.Sprintf("%q is not a column of this table", clip(title)), "the first line of the table names its columns", fix)
}

func (t *table) operator(row []string) {
	o := new(Operator)
	o.Key.At = t.place(0)
	for i, text := range row {
		at := t.place(i)
		switch text = strings.Clone(strings.TrimSpace(text)); t.columns[i] {
		case 0:
			o.ID = cell(t.l, "id", radioIDs, text, at)
		case 1:
			o.Callsign = cell(t.l, "callsign", callsigns, text, at)
		case 2:
			if text != "" {
				o.Person = cell(t.l, "name", people, text, at)
			}
		}
	}
	if t.l.apart {
		t.l.records = append(t.l.records, o)
		return
	}
	_ = t.l.plan.Add(o) // rows are never refused
}

func cell[T any](l *loader, name string, c codec[T], text string, at Place) Value[T] {
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

// operatorKey tells a row of the table by all that it says, so that the order of
// rows means nothing; Add numbers rows that say the same.
func operatorKey(r Record) string {
	o := r.(*Operator)
	return o.ID.V.String() + "/" + string(o.Callsign.V) + "/" + o.Person.V
}
