package plan

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

var operatorColumns = []string{"id", "callsign", "name"}

// readOperators reads a table with the columns id, callsign and name.
func (l *loader) readOperators(data []byte) {
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	table := csv.NewReader(bytes.NewReader(data))
	table.ReuseRecord = true
	table.TrimLeadingSpace = true
	head, err := table.Read()
	if errors.Is(err, io.EOF) {
		return
	}
	if err != nil {
		l.tableError(err)
		return
	}
	columns, ok := l.columns(head)
	if !ok {
		return
	}
	for {
		row, err := table.Read()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			l.tableError(err)
			if !errors.Is(err, csv.ErrFieldCount) {
				return // the rest of the table cannot be told apart
			}
			continue
		}
		l.operator(table, columns, row)
	}
}

// columns finds out which column holds what.
func (l *loader) columns(head []string) ([]int, bool) {
	at := Place{File: l.file, Line: 1, Col: 1}
	columns := make([]int, len(head))
	for i, title := range head {
		title = strings.ToLower(strings.TrimSpace(title))
		columns[i] = slices.Index(operatorColumns, title)
		if columns[i] < 0 {
			fix := "the columns are id, callsign and name"
			if near := Nearest(title, operatorColumns); near != "" {
				fix = "did you mean " + near + "?"
			}
			l.problem(UnknownKey, at, fmt.Sprintf("%q is not a column of this table", clip(title)), "", fix)
			return nil, false
		}
		if slices.Contains(columns[:i], columns[i]) {
			l.problem(DuplicateKey, at, fmt.Sprintf("the column %q stands there twice", title), "", "take one out")
			return nil, false
		}
	}
	for i, title := range operatorColumns[:2] {
		if !slices.Contains(columns, i) {
			l.problem(BadSyntax, at, fmt.Sprintf("the column %q is missing", title), "the first line of the table names its columns", "let the table begin with the line id,callsign,name")
			return nil, false
		}
	}
	return columns, true
}

func (l *loader) operator(table *csv.Reader, columns []int, row []string) {
	o := new(Operator)
	line, col := table.FieldPos(0)
	o.Key.At = Place{l.file, int32(line), int32(col)}
	for i, text := range row {
		line, col := table.FieldPos(i)
		at := Place{l.file, int32(line), int32(col)}
		switch text = strings.TrimSpace(text); columns[i] {
		case 0:
			o.ID = cell(l, "id", radioIDs, strings.Clone(text), at)
		case 1:
			o.Callsign = cell(l, "callsign", callsigns, strings.Clone(text), at)
		case 2:
			if text != "" {
				o.Person = cell(l, "name", texts, strings.Clone(text), at)
			}
		}
	}
	_ = l.plan.Add(o) // rows are never refused
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

func (l *loader) tableError(err error) {
	at := Place{File: l.file}
	var pe *csv.ParseError
	if errors.As(err, &pe) {
		at.Line, at.Col = int32(pe.Line), int32(pe.Column)
		err = pe.Err
		if at.Col == 0 {
			at.Col = 1
		}
	}
	what, fix := "the text is not a table in CSV: "+err.Error(), "look for a quote that is not closed"
	if errors.Is(err, csv.ErrFieldCount) {
		what, fix = "this row has another number of columns than the first line", "a comma is missing or too many; a name with a comma needs quotes"
	}
	l.problem(BadSyntax, at, what, "", fix)
}

// operatorKey tells a row of the table by all that it says, so that the order of
// rows means nothing; Add numbers rows that say the same.
func operatorKey(r Record) string {
	o := r.(*Operator)
	return o.ID.V.String() + "/" + string(o.Callsign.V) + "/" + o.Person.V
}
