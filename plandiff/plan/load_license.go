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

// LicenseColumns is the first line of license.csv. The columns are those of the license
// tables of this program; package license says what they mean.
const LicenseColumns = "classes,service,station,place,low_mhz,high_mhz,transmit,emissions,max_width_hz,max_power_w,power_kind,condition,source,edition,confidence,note"

// readLicense reads the club's own rows of the license tables. What their cells mean is
// read where they are used; here each is a row of the right shape, at its place.
func (l *loader) readLicense(data []byte) {
	t := &table{l: l, csv: csv.NewReader(bytes.NewReader(data)), data: data, line: 1}
	t.csv.Comment = '#'
	head, err := t.csv.Read()
	switch {
	case errors.Is(err, io.EOF):
		return
	case err != nil:
		t.mistake(err)
		return
	case !slices.Equal(head, strings.Split(LicenseColumns, ",")):
		l.problem(BadSyntax, t.place(0), "the columns of this table are not those of the license tables", "nothing in it can be used, and what it bars would not be judged", "let the first line be "+LicenseColumns)
		return
	}
	for rows := 1; ; rows++ {
		cells, err := t.csv.Read()
		switch {
		case err == nil && rows > MaxLicenseRows:
			l.problem(BadValue, t.place(0), fmt.Sprintf("there are more than %d rows here", MaxLicenseRows), "those from this one on are not read, so that no table can hang the program", "join ranges that touch, and leave out what the tables of your region say")
			return
		case err == nil:
			t.licenseRow(cells)
		case errors.Is(err, io.EOF):
			return
		default:
			t.mistake(err)
		}
	}
}

func (t *table) licenseRow(cells []string) {
	r, at := new(LicenseRow), t.place(0)
	r.Row = cell(t.l, "row", rows, csvLine(cells), at)
	if r.Row.Bad {
		return
	}
	r.setKey(Value[string]{V: licenseRowKey(r), At: at})
	t.l.keep(SectionOf(KindLicenseRow), r)
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

// licenseRowKey tells a row by all that it says.
func licenseRowKey(r Record) string { return r.(*LicenseRow).Row.V }

// licenseCSV writes the club's own rows, as readLicense reads them.
func licenseCSV(p *Plan) []byte {
	var buf bytes.Buffer
	fmt.Fprintln(&buf, LicenseColumns)
	for _, r := range p.LicenseRows.Sorted() {
		fmt.Fprintln(&buf, r.Row.V)
	}
	return buf.Bytes()
}
