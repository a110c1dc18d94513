package plan

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
)

// fileOf gives the file that a table is written into: its name, or that which the plan has for it.
func fileOf(s *Section, p *Plan) string {
	if s.Kind == KindNeighbor {
		return p.Header.List.Or(s.file)
	}
	return s.file
}

// tableCSV writes the records of a section as the rows of a table, as Load reads them.
func tableCSV(s *Section, p *Plan) []byte {
	var buf bytes.Buffer
	buf.WriteString(s.head + "\n")
	records := s.all(p)
	slices.SortFunc(records, func(a, b Record) int { return strings.Compare(a.Thing().Key, b.Thing().Key) })
	w := csv.NewWriter(&buf)
	for _, r := range records {
		if s.whole {
			buf.WriteString(s.Fields[0].items(r)[0].Text + "\n")
			continue
		}
		_ = w.Write(s.Row(r, s.columns()))
		w.Flush() // a buffer takes everything
	}
	return buf.Bytes()
}

// columns gives the columns of a table that has them all.
func (s *Section) columns() []string { return strings.Split(s.head, ",") }

// Row gives the cells of a record in these columns; those that are none of its fields stay empty.
func (s *Section) Row(r Record, columns []string) []string {
	cells := make([]string, len(columns))
	for i, column := range columns {
		if f := s.Field(column); f != nil {
			if items := f.items(r); len(items) > 0 {
				cells[i] = items[0].Text
			}
		}
	}
	return cells
}
