package rewrite

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
)

// A table is the lines of a file whose rows are records. A row stands on one line.
type table struct {
	s     *plan.Section
	lines []string // with their line ends
	gone  map[int]bool
	added []string
	head  []string // the columns, lower case
	eol   string
	open  bool // the last line had no line end
}

func newTable(section *plan.Section, text []byte) *table {
	t := &table{s: section, gone: map[int]bool{}, eol: "\n"}
	s := string(text)
	if strings.Contains(s, "\r\n") {
		t.eol = "\r\n"
	}
	if s == "" {
		_, head := section.Table()
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
func (t *table) change(old plan.Record, edits []plandiff.Edit) error {
	at := old.Place()
	i := int(at.Line) - 1
	now := plan.Clone(old)
	for _, edit := range edits {
		if err := t.s.Field(edit.Field).Set(now, edit.New); err != nil {
			return err
		}
	}
	t.need(now)
	row := cells(t.lines[i])
	texts := t.row(now)
	for _, edit := range edits {
		for _, name := range t.spellings(edit.Field) {
			column := slices.Index(t.head, name)
			if column >= len(row) {
				return &Unsafe{at, fmt.Sprintf("the cell for %s is not found in this row", edit.Field), "change the row by hand"}
			}
			cell := row[column]
			body := strings.TrimSpace(cell)
			lead := cell[:strings.Index(cell, body)]
			tail := cell[len(lead)+len(body):]
			row[column] = lead + quotedCell(texts[column], strings.HasPrefix(body, `"`)) + tail
		}
	}
	t.lines[i] = strings.Join(row, ",") + t.ending(i)
	return nil
}

func (t *table) ending(i int) string {
	if strings.HasSuffix(t.lines[i], "\r\n") {
		return "\r\n"
	}
	return "\n"
}

// need puts in the columns that a record has values for and the table lacks.
func (t *table) need(r plan.Record) {
	_, head := t.s.Table()
	for column := range strings.SplitSeq(head, ",") {
		said := len(t.s.Field(column).Items(r)) > 0
		if said && !slices.Contains(t.head, column) && !(column == "input" && t.splits(r)) {
			t.widen(column)
		}
	}
}

// splits reports whether the table has the input of a neighbor as a split.
func (t *table) splits(r plan.Record) bool {
	n, ok := r.(*plan.Neighbor)
	if !ok || !slices.Contains(t.head, "split") || slices.Contains(t.head, "input") {
		return false
	}
	_, err := signal.ParseSplit(splitText(n))
	return err == nil
}

func splitText(n *plan.Neighbor) string { return signal.Split(n.Input.V - n.Output.V).String() }

// widen puts in a column behind the last.
func (t *table) widen(column string) {
	first := true
	for i, line := range t.lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		end := t.ending(i)
		more := ","
		if first {
			more, first = ","+column, false
		}
		t.lines[i] = strings.TrimSuffix(line, end) + more + end
	}
	for i, line := range t.added {
		t.added[i] = strings.TrimRight(line, "\r\n") + "," + t.eol
	}
	t.head = append(t.head, column)
}

// spellings gives the columns of the table that say what a field does.
func (t *table) spellings(field string) []string {
	names := []string{field}
	if t.s.Kind == plan.KindNeighbor && (field == "input" || field == "output") {
		names = append(names, "split")
	}
	return slices.DeleteFunc(names, func(name string) bool { return !slices.Contains(t.head, name) })
}

// row gives the cells of a record in the columns of the table.
func (t *table) row(r plan.Record) []string {
	row := t.s.Row(r, t.head)
	if n, ok := r.(*plan.Neighbor); ok && n.Input.IsSet() && t.splits(n) {
		row[slices.Index(t.head, "split")] = splitText(n)
	}
	return row
}

// add puts a row in: behind the last, or where its ID belongs if the rows are
// sorted by it.
func (t *table) add(r plan.Record) {
	if t.s.WholeRows() {
		t.added = append(t.added, t.s.Fields[0].Items(r)[0].Text+t.eol)
		return
	}
	t.need(r)
	row := t.row(r)
	var quoted []string
	for _, cell := range row {
		quoted = append(quoted, quotedCell(cell, false))
	}
	line := strings.Join(quoted, ",") + t.eol
	if i, ok := t.where(row); ok {
		t.lines[i] = line + t.lines[i] // one line of the old numbering, so that places stay right
		return
	}
	t.added = append(t.added, line)
}

// where gives the line before which a row belongs, if the rows are sorted by ID
// and it does not belong behind the last.
func (t *table) where(row []string) (int, bool) {
	column := slices.Index(t.head, "id")
	if column < 0 {
		return 0, false
	}
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
