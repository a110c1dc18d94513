package plan

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
)

// LicenseColumns is the first line of license.csv. The columns are those of the license
// tables of this program; package license says what they mean.
const LicenseColumns = "classes,service,station,place,low_mhz,high_mhz,transmit,emissions,max_width_hz,max_power_w,power_kind,condition,source,edition,confidence,note"

// SeparationColumns is the first line of separation.csv. The columns are those of the
// separation table of this program; package rf says what they mean.
const SeparationColumns = "region,band,spacing_hz,required,applies,source,confidence,note"

// readRows reads the club's own rows of a table that comes with the program. What their cells
// mean is read where they are used; here each is a row of the right shape, at its place.
func (l *loader) readRows(s *Section, data []byte) {
	t := l.newTable(s, data)
	t.csv.Comment = '#'
	head, err := t.csv.Read()
	switch {
	case errors.Is(err, io.EOF):
		return
	case err != nil:
		t.mistake(err)
		return
	case strings.Join(head, ",") != s.head:
		l.problem(BadSyntax, t.place(0), "the columns of this table are not those of the "+strings.TrimSuffix(s.Kind.String(), " row")+" tables", "nothing in it can be used, and what it asks would not be judged", "let the first line be "+s.head)
		return
	}
	for rows := 1; ; rows++ {
		cells, err := t.csv.Read()
		switch {
		case err == nil && rows > MaxLicenseRows:
			l.problem(BadValue, t.place(0), fmt.Sprintf("there are more than %d rows here", MaxLicenseRows), "those from this one on are not read, so that no table can hang the program", "join ranges that touch, and leave out what the tables of your region say")
			return
		case err == nil:
			t.row(cells)
		case errors.Is(err, io.EOF):
			return
		default:
			t.mistake(err)
		}
	}
}

// row keeps one row as it stands.
func (t *table) row(cells []string) {
	r, at, before := t.s.create(), t.place(0), len(t.l.plan.Problems)
	t.s.Fields[0].cell(t.l, r, csvLine(cells), at)
	if len(t.l.plan.Problems) > before || len(t.s.Fields[0].items(r)) == 0 {
		return
	}
	r.setKey(Value[string]{V: t.s.keyOf(r), At: at})
	t.l.records = append(t.l.records, r)
}

// parseRow reads a row that stands on one line.
func parseRow(text string) (string, error) {
	if strings.HasPrefix(text, "#") {
		return "", fmt.Errorf("its first cell begins with #, so that it would be read as a comment; name classes of license there, or nothing")
	}
	return visible(text, 4000, false)
}

// csvLine writes cells as a line of CSV, without its end.
func csvLine(cells []string) string {
	var buf bytes.Buffer
	w := csv.NewWriter(&buf)
	_ = w.Write(cells) // a buffer takes everything
	w.Flush()
	return strings.TrimSuffix(buf.String(), "\n")
}
