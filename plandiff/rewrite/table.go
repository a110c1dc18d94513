package rewrite

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// operatorsHead is the first line of a new table of operators.
const operatorsHead = "id,callsign,name"

// A table is the lines of a file with operators, or with license rows. A row stands
// on one line.
type table struct {
	lines []string // with their line ends
	gone  map[int]bool
	added []string
	head  []string // the columns, lower case
	eol   string
	open  bool // the last line had no line end
}

func newTable(text []byte, head string) *table {
	t := &table{gone: map[int]bool{}, eol: "\n"}
	s := string(text)
	if strings.Contains(s, "\r\n") {
		t.eol = "\r\n"
	}
	if s == "" {
		s = head + t.eol
	}
	if !strings.HasSuffix(s, "\n") {
		t.open = true
		s += t.eol
	}
	t.lines = strings.SplitAfter(s, "\n")
	t.lines = t.lines[:len(t.lines)-1]
	for _, line := range t.lines {
		line = strings.TrimPrefix(line, "\uFEFF")
		if strings.TrimSpace(line) == "" {
			continue
		}
		for _, c := range cells(line) {
			t.head = append(t.head, strings.ToLower(strings.TrimSpace(unquoted(c))))
		}
		break
	}
	return t
}

// bytes gives the text of the table.
func (t *table) bytes() []byte {
	var b strings.Builder
	for i, line := range t.lines {
		if !t.gone[i] {
			b.WriteString(line)
		}
	}
	for _, line := range t.added {
		b.WriteString(line)
	}
	text := b.String()
	if t.open {
		text = strings.TrimSuffix(text, t.eol)
	}
	return []byte(text)
}

// cells parts a line at the commas that are not between quotes.
func cells(line string) []string {
	line = strings.TrimRight(line, "\r\n")
	var parts []string
	quoted, from := false, 0
	for i := range len(line) {
		switch {
		case line[i] == '"':
			quoted = !quoted
		case line[i] == ',' && !quoted:
			parts, from = append(parts, line[from:i]), i+1
		}
	}
	return append(parts, line[from:])
}

func unquoted(cell string) string {
	cell = strings.TrimSpace(cell)
	if len(cell) > 1 && cell[0] == '"' && cell[len(cell)-1] == '"' {
		return strings.ReplaceAll(cell[1:len(cell)-1], `""`, `"`)
	}
	return cell
}

// quotedCell writes a text as a cell, between quotes where it must or did.
func quotedCell(text string, had bool) string {
	if had || strings.ContainsAny(text, "\",\n\r") || strings.TrimSpace(text) != text || strings.HasPrefix(text, `"`) {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// remove takes the row on a line away.
func (t *table) remove(line int32) { t.gone[int(line)-1] = true }

// change writes the cells of a row that are different now.
func (t *table) change(at plan.Place, edits []plandiff.Edit) error {
	i := int(at.Line) - 1
	for _, edit := range edits {
		if edit.Field == "name" {
			t.needName()
		}
		column := slices.Index(t.head, edit.Field)
		row := cells(t.lines[i])
		if column < 0 || column >= len(row) {
			return &Unsafe{at, fmt.Sprintf("the cell for %s is not found in this row", edit.Field), "change the row by hand"}
		}
		old := row[column]
		body := strings.TrimSpace(old)
		lead := old[:strings.Index(old, body)]
		tail := old[len(lead)+len(body):]
		text := ""
		if len(edit.New) > 0 {
			text = edit.New[0]
		}
		row[column] = lead + quotedCell(text, strings.HasPrefix(body, `"`)) + tail
		t.lines[i] = strings.Join(row, ",") + t.ending(i)
	}
	return nil
}

func (t *table) ending(i int) string {
	if strings.HasSuffix(t.lines[i], "\r\n") {
		return "\r\n"
	}
	return "\n"
}

// needName puts in a column for names where the table has none.
func (t *table) needName() {
	if slices.Contains(t.head, "name") {
		return
	}
	first := true
	for i, line := range t.lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		end := t.ending(i)
		more := ","
		if first {
			more, first = ",name", false
		}
		t.lines[i] = strings.TrimSuffix(line, end) + more + end
	}
	for i, line := range t.added {
		t.added[i] = strings.TrimRight(line, "\r\n") + "," + t.eol
	}
	t.head = append(t.head, "name")
}

// add puts a row in: behind the last, or where its ID belongs if the rows are
// sorted by it.
func (t *table) add(o *plan.Operator) error {
	if o.Person.IsSet() {
		t.needName()
	}
	row := make([]string, len(t.head))
	for i, column := range t.head {
		switch column {
		case "id":
			row[i] = o.ID.V.String()
		case "callsign":
			row[i] = string(o.Callsign.V)
		case "name":
			row[i] = quotedCell(o.Person.V, false)
		}
	}
	line := strings.Join(row, ",") + t.eol
	if i, ok := t.where(row); ok {
		t.lines[i] = line + t.lines[i] // one line of the old numbering, so that places stay right
		return nil
	}
	t.added = append(t.added, line)
	return nil
}

// addRow puts a row in behind the last.
func (t *table) addRow(row string) { t.added = append(t.added, row+t.eol) }

// where gives the line before which a row belongs, if the rows are sorted by ID
// and it does not belong behind the last.
func (t *table) where(row []string) (int, bool) {
	column := slices.Index(t.head, "id")
	id := func(cells []string) int {
		if column >= len(cells) {
			return -1
		}
		n, err := strconv.Atoi(unquoted(cells[column]))
		if err != nil {
			return -1
		}
		return n
	}
	mine, last, at := id(row), -1, -1
	for i, lines := range t.lines {
		for line := range strings.SplitAfterSeq(lines, "\n") {
			n := id(cells(line))
			switch {
			case n < 0 || t.gone[i] && line == lines:
				continue
			case n < last:
				return 0, false
			}
			if last = n; at < 0 && n > mine {
				at = i
			}
		}
	}
	return at, at >= 0
}
