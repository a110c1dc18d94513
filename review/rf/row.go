package rf

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"passband.example/plandiff/signal"
)

// Row is one line of a separation table: what a coordinating body asks between two repeaters.
type Row struct {
	Region     string       // US-AL, or any
	Band       string       // 2m, or any
	Spacing    signal.Hertz // between the two frequencies: this or more, up to the next row
	Asked      string       // the distance as the source has it: 100 mi
	RequiredM  float64      // the same in meters; 0 asks nothing from this spacing on
	Applies    Applies
	Source     string
	Confidence string // read, derived, memory; a club's own rows: whatever it says
	Note       string
	File       string
	Line       int
}

// Cite says which row was used, for a finding: "100 mi, 2m, 0 kHz apart (US-AL: Alabama state
// coordination guidelines)".
func (r *Row) Cite() string {
	source := r.Source
	if r.Region != "any" && r.Region != "" {
		source = r.Region + ": " + source
	}
	return fmt.Sprintf("%s, %s, %s kHz apart (%s)", r.Asked, r.Band, r.Spacing.KHz(), source)
}

// Applies says which pairs of stations a row is about.
type Applies uint8

// The kinds of pairs. Those from SharedPairs on can't be told from a list of stations, so their
// rows are never applied; they stand in the table for a club to copy under another word.
const (
	AnyPair     Applies = iota
	BothFM              // FM and FM
	BothTones           // FM and FM, each with a tone, and not the same
	BothDMR             // DMR and DMR
	Mixed               // DMR beside FM
	SharedPairs         // low-power stations on pairs that nobody protects
	OneSystem           // linked stations of one organization
)

var appliesWords = [...]string{"any", "fm", "tones", "dmr", "mixed", "shared", "one-system"}

// AppliedWords returns the words for the kinds of pairs whose rows are applied.
func AppliedWords() []string { return slices.Clone(appliesWords[:SharedPairs]) }

// String returns the word that stands in the tables.
func (a Applies) String() string {
	if int(a) < len(appliesWords) {
		return appliesWords[a]
	}
	return "unknown"
}

//go:embed data/separation.csv
var separationCSV []byte

// PublishedRows returns the rows that come with the program: what some councils publish, by region,
// and under the region "any" the defaults that this project proposes from them.
func PublishedRows() []Row { return slices.Clone(published()) }

var published = sync.OnceValue(func() []Row {
	rows, err := ReadRows("separation.csv", separationCSV)
	if err != nil {
		panic("rf: embedded table: " + err.Error()) // only a broken build can reach this
	}
	return rows
})

// widestSpacing is more than any council's last row. Without a bound, the last row of a table
// that forgets to end with 0 would be asked across the whole band.
const widestSpacing = 100_000 // Hz

var rowColumns = []string{"region", "band", "spacing_hz", "required", "applies", "source", "confidence", "note"}

// ReadRows reads a separation table, a club's own for instance; see the package comment for its
// columns. file is the name that errors and rows carry. It returns every problem at once.
func ReadRows(file string, data []byte) ([]Row, error) {
	reader := csv.NewReader(bytes.NewReader(data))
	reader.Comment = '#'
	header, err := reader.Read()
	if err != nil {
		return nil, fmt.Errorf("%s: no line with the names of the columns can be read; begin with %s: %w", file, strings.Join(rowColumns, ","), err)
	}
	if !slices.Equal(header, rowColumns) {
		return nil, fmt.Errorf("%s:1: the columns are %.120q; begin with %s", file, header, strings.Join(rowColumns, ","))
	}
	var rows []Row
	var problems []error
	for {
		cells, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return rows, errors.Join(problems...)
		}
		if err != nil {
			return nil, errors.Join(append(problems, fmt.Errorf("%s: %w", file, err))...)
		}
		line, _ := reader.FieldPos(0)
		row, amiss := readRow(cells)
		for _, problem := range amiss {
			problems = append(problems, fmt.Errorf("%s:%d: %s", file, line, problem))
		}
		row.File, row.Line = file, line
		rows = append(rows, row)
	}
}

// readRow reads the cells of one line, and says what is wrong with them.
func readRow(cells []string) (row Row, problems []string) {
	amiss := func(format string, args ...any) { problems = append(problems, fmt.Sprintf(format, args...)) }
	row = Row{Region: cells[0], Band: cells[1], Asked: cells[3], Source: cells[5], Confidence: cells[6], Note: cells[7]}
	if row.Band != "any" && !knownBand(row.Band) {
		amiss("band %.40q is not known; write any, or a name such as 2m or 70cm", row.Band)
	}
	spacing, err := strconv.ParseUint(cells[2], 10, 32)
	if err != nil || spacing > widestSpacing {
		amiss("spacing_hz %.40q is no spacing; write whole hertz up to 100000, as in 15000, or 0 for the same frequency", cells[2])
	}
	row.Spacing = signal.Hertz(spacing)
	var ok bool
	if row.RequiredM, ok = meters(row.Asked); !ok {
		amiss("required %.40q is no distance; write it with its unit, as in 100 mi or 161 km, up to 2000 km", row.Asked)
	}
	applies := slices.Index(appliesWords[:], cells[4])
	if applies < 0 {
		amiss("applies %.40q is not known; write one of %s", cells[4], strings.Join(AppliedWords(), ", "))
	}
	row.Applies = Applies(max(applies, 0))
	if strings.TrimSpace(row.Source) == "" {
		amiss("source is empty; a finding names who asks for the distance, so every row needs one")
	}
	return row, problems
}

// meters reads a distance with its unit.
func meters(text string) (m float64, ok bool) {
	number, unit, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	factor := map[string]float64{"km": 1000, "mi": mileM}[unit]
	m = x * factor
	return m, err == nil && factor != 0 && m >= 0 && m <= 2_000_000
}
