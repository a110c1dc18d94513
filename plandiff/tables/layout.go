package tables

import (
	"passband.example/plandiff/plan"
)

// A Layout says which tables there are and what stands in their columns. Read one
// with ParseLayout; Neutral is the one that comes with passband.
type Layout struct {
	Name      string
	Encoding  Encoding
	Separator rune // between columns
	Comma     bool // decimals stand behind a comma
	LineFeed  bool // lines end with LF alone, not with CR LF
	Tables    []*Table
	Notices   []string // what reading by it cannot tell apart

	stated bool // it names its encoding
}

// A Table is one file of a layout.
type Table struct {
	File    string
	Columns []*Column

	source *source
	each   *value // the list that is spread over rows; nil where a record is one row
	at     plan.Place
}

// A Column is one column of a table.
type Column struct {
	Header string

	value  *value // nil for one that always holds the same text
	text   string
	format format
	blank  string // what an empty cell means
	none   string // what is written where nothing is set
	join   string // between the items of a list
	words  map[string]string
	means  map[string]string // words, backwards

	normal func(text string) (string, error)
	at     plan.Place
}

// find gives the column that shows a value, or -1.
func (t *Table) find(name string) int {
	for i, c := range t.Columns {
		if c.value != nil && c.value.name == name {
			return i
		}
	}
	return -1
}

// spread reports whether the column holds one item a row of the list that is spread.
func (t *Table) spread(c *Column) bool {
	return t.each != nil && c.value != nil && listOf(c.value.name) == listOf(t.each.name)
}

// Limits of what is read, so that no file can hang or exhaust the program.
const (
	MaxLayoutSize = 1 << 20 // bytes of a layout
	MaxTables     = 100     // of a layout
	MaxColumns    = 500     // of a table
	MaxRows       = 300_000 // of a table; a plan of 100,000 channels has so many members of zones
	MaxProblems   = 1_000   // that are told
)
