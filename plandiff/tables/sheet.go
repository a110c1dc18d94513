package tables

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A sheet is a table that was read, with what its rows say.
type sheet struct {
	file  string // as the person named it
	table *Table
	comma bool
	cols  []int    // of the file, from 0, for each column of the table; -1 where it has none
	heads []string // of the file
	rows  []*row
}

// A row is one row of a sheet.
type row struct {
	sheet *sheet
	n     int        // as a spreadsheet program numbers it
	cells []string   // by the columns of the table
	texts [][]string // what they say
	bad   bool       // a problem was told
}

// has reports whether the file has the column i of the table.
func (s *sheet) has(i int) bool { return i >= 0 && s.cols[i] >= 0 }

// open reads a file as one of the tables of the layout; nil after noting why it cannot.
func (b *builder) open(f File) *sheet {
	s := &sheet{file: f.Name}
	if len(f.Data) > plan.MaxTableSize {
		b.about(s, fmt.Sprintf("this file is larger than %d MB", plan.MaxTableSize>>20), "split it into tables of fewer rows")
		return nil
	}
	data, encoding, err := decode(f.Data, b.statedEncoding())
	if err != nil {
		b.about(s, "this file cannot be read: "+err.Error(), "save it as CSV in UTF-8")
		return nil
	}
	if !bytes.ContainsRune(data, '\n') {
		data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n")) // lines as old Macintosh programs end them
	}
	separator := b.recognise(s, data)
	if s.table == nil {
		return nil
	}
	if b.readRows(s, data, separator); s.cols == nil {
		return nil // told: the headers themselves cannot be read
	}
	b.said(s, encoding, separator)
	return s
}

func (b *builder) statedEncoding() Encoding {
	if b.layout.stated {
		return b.layout.Encoding
	}
	return ""
}

// recognise finds the table that the file is, by its name or else its headers, and the
// separator with which its first row has most of the headers.
func (b *builder) recognise(s *sheet, data []byte) rune {
	tables := b.layout.Tables
	if i := slices.IndexFunc(tables, func(t *Table) bool { return strings.EqualFold(t.File, path.Base(s.file)) }); i >= 0 {
		tables = tables[i : i+1]
	}
	best, tied, separator := 0, false, b.layout.Separator
	for _, sep := range append([]rune{b.layout.Separator}, separators...) {
		head := firstRow(data, sep)
		for _, t := range tables {
			switch n := t.known(head); {
			case n > best:
				best, tied, separator, s.table, s.heads = n, false, sep, t, head
			case n == best && n > 0 && t != s.table:
				tied = true
			}
		}
	}
	switch {
	case best == 0:
		b.about(s, "no column has a header that the layout knows", "the first row must hold the headers, which are "+strings.Join(headersOf(tables), ", ")+"; "+ownLayout)
	case len(tables) > 1 && 2*best < len(s.heads):
		b.about(s, fmt.Sprintf("of its %d columns %d have headers that the layout knows", len(s.heads), best), ownLayout)
		s.table = nil
	case tied:
		b.about(s, fmt.Sprintf("its headers fit the tables %s and others", s.table.File), "give the file the name of its table in the layout")
		s.table = nil
	}
	return separator
}

// ownLayout is what to do about a table that was not made by the layout.
const ownLayout = `for a table with other headers write a layout of its own: begin with what "passband export --show-layout" prints, and see "passband explain layout"`

func firstRow(data []byte, separator rune) []string {
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = separator, true, -1
	head, _ := r.Read() // what is wrong with it is told when the rows are read
	return head
}

func (t *Table) known(head []string) int {
	n := 0
	for _, c := range t.Columns {
		if slices.ContainsFunc(head, c.isHeader) {
			n++
		}
	}
	return n
}

func (c *Column) isHeader(cell string) bool {
	return strings.EqualFold(strings.TrimSpace(cell), strings.TrimSpace(c.Header))
}

func headersOf(tables []*Table) []string {
	var heads []string
	for _, t := range tables {
		for _, c := range t.Columns {
			if !slices.Contains(heads, c.Header) {
				heads = append(heads, c.Header)
			}
		}
	}
	return heads
}

// columns finds the columns of the table in the file, and tells what is not read.
func (b *builder) columns(s *sheet, head []string) {
	s.heads, s.cols = head, make([]int, len(s.table.Columns))
	read := make([]bool, len(head))
	for i, c := range s.table.Columns {
		s.cols[i] = -1
		for j, cell := range head {
			if !c.isHeader(cell) {
				continue
			}
			if s.cols[i] >= 0 {
				b.problem(&row{sheet: s, n: 1}, i, fmt.Sprintf("the column %q stands there twice", c.Header), "take one out")
			}
			s.cols[i], read[j] = j, true
		}
	}
	for j, cell := range head {
		if !read[j] && strings.TrimSpace(cell) != "" {
			near := ""
			if word := plan.Nearest(cell, headersOf([]*Table{s.table})); word != "" {
				near = fmt.Sprintf(" (did you mean %s?)", word)
			}
			b.note("%s: column %s (%s) is not in the layout and not read%s", s.file, Letters(j+1), clip(cell), near)
		}
	}
	for i, c := range s.table.Columns {
		if s.cols[i] < 0 && c.value != nil {
			b.note("%s has no column %s, and what it would say stays as it is", s.file, c.Header)
		}
	}
}

// readRows reads all rows, each cell by its column.
func (b *builder) readRows(s *sheet, data []byte, separator rune) {
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.FieldsPerRecord = separator, -1
	n, line, offset, empty := 0, 1, int64(0), 0
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			b.problem(&row{sheet: s, n: n + 1 + bad.StartLine - line}, -1, fmt.Sprintf("from here on this is no table in CSV (line %d: %s)", bad.Line, plainly(bad.Err)), "look for a quotation mark that is missing or too many; the rows below are not read")
			break
		}
		start, _ := r.FieldPos(0)
		n += 1 + start - line // a spreadsheet program shows an empty line as a row
		line += bytes.Count(data[offset:r.InputOffset()], []byte("\n"))
		offset = r.InputOffset()
		switch {
		case s.cols == nil:
			b.columns(s, record)
		case isEmpty(record):
			empty++
		case len(s.rows) == MaxRows:
			b.about(s, fmt.Sprintf("the table has more than %d rows", MaxRows), "split it into tables of fewer rows")
			return
		default:
			b.take(s, n, record)
		}
	}
	switch empty {
	case 0:
	case 1:
		b.note("%s: 1 empty row is passed over", s.file)
	default:
		b.note("%s: %d empty rows are passed over", s.file, empty)
	}
	if s.cols != nil {
		b.readCells(s)
	}
}

func plainly(err error) string {
	switch {
	case errors.Is(err, csv.ErrQuote):
		return "a quotation mark begins or ends a cell where it cannot"
	case errors.Is(err, csv.ErrBareQuote):
		return "a quotation mark stands inside a cell that does not begin with one"
	}
	return "it cannot be read"
}

func isEmpty(record []string) bool {
	return !slices.ContainsFunc(record, func(cell string) bool { return strings.TrimSpace(cell) != "" })
}

// take keeps a row in the order of the layout's columns.
func (b *builder) take(s *sheet, n int, record []string) {
	r := &row{sheet: s, n: n, cells: make([]string, len(s.cols)), texts: make([][]string, len(s.cols))}
	s.rows = append(s.rows, r)
	if len(record) < len(s.heads) || len(record) > len(s.heads) && !isEmpty(record[len(s.heads):]) {
		b.problem(r, -1, fmt.Sprintf("this row has %d cells and the first row %d", len(record), len(s.heads)), "a separator is missing or too many; a cell that holds one needs quotation marks around it")
		return
	}
	for i, col := range s.cols {
		if col >= 0 {
			r.cells[i] = record[col]
		}
	}
}

// readCells reads what the cells say, once it is known how decimals are written.
func (b *builder) readCells(s *sheet) {
	s.comma = b.decimalComma(s)
	readings := make([]reading, len(s.table.Columns))
	for i, c := range s.table.Columns {
		readings[i] = reading{column: c, comma: s.comma}
	}
	for _, r := range s.rows {
		if r.bad {
			continue
		}
		for i, c := range s.table.Columns {
			if !s.has(i) || c.value == nil {
				continue
			}
			texts, err := readings[i].read(r.cells[i])
			if err != nil {
				what, fix := parted(err)
				b.problem(r, i, what, fix)
				continue
			}
			r.texts[i] = texts
		}
	}
}

// decimalComma tells how the decimals of a sheet are written: as the layout says,
// unless all that there are say otherwise.
func (b *builder) decimalComma(s *sheet) bool {
	commas, points := 0, 0
	for i, c := range s.table.Columns {
		if c.value == nil || c.value.kind == words {
			continue
		}
		for _, r := range s.rows {
			if cell := strings.TrimSpace(r.cells[i]); isNumber(cell) {
				commas += strings.Count(cell, ",")
				points += strings.Count(cell, ".")
			}
		}
	}
	switch {
	case commas > 0 && points == 0:
		return true
	case points > 0 && commas == 0:
		return false
	}
	return b.layout.Comma
}

// said tells how the file was read.
func (b *builder) said(s *sheet, e Encoding, separator rune) {
	names := map[rune]string{',': "commas", ';': "semicolons", '\t': "tabs"}
	decimals := "points"
	if s.comma {
		decimals = "commas"
	}
	b.note("%s: %d rows read as %s, in %s with %s between columns and decimal %s", s.file, len(s.rows), s.table.source.name, e, names[separator], decimals)
}
