package rf

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// A line is one row of a table of testdata, by column.
type line map[string]string

// lines reads a table of testdata; lines that begin with # are left out.
func lines(t testing.TB, file string) []line {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	reader := csv.NewReader(f)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []line
	for _, row := range rows[1:] {
		l := line{}
		for i, name := range rows[0] {
			l[name] = row[i]
		}
		all = append(all, l)
	}
	return all
}

// number reads a cell that must be a number.
func (l line) number(t testing.TB, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.TrimSpace(l[column]), 64)
	if err != nil {
		t.Fatalf("%s of %v: %v", column, l, err)
	}
	return x
}

// has tells whether a cell holds anything.
func (l line) has(column string) bool { return l[column] != "" }
