package license

import (
	"encoding/csv"
	"math/big"
	"os"
	"slices"
	"sort"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

// An oracle answers steps 1 to 3 by brute force: it reads the CSV files as text, keeps
// frequencies as fractions of a megahertz, and looks at every piece between two edges.
type oracle struct{ rows []oracleRow }

type oracleRow struct {
	cells     map[string]string
	low, high *big.Rat
}

func newOracle(t testing.TB, code string) oracle {
	t.Helper()
	var o oracle
	for _, name := range []string{strings.ToLower(code), "any"} {
		file, err := os.Open("data/bands/" + name + ".csv")
		if err != nil {
			t.Fatal(err)
		}
		reader := csv.NewReader(file)
		reader.Comment = '#'
		lines, err := reader.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range lines[1:] {
			cells := map[string]string{}
			for i, column := range lines[0] {
				cells[column] = line[i]
			}
			o.rows = append(o.rows, oracleRow{cells, rat(cells["low_mhz"]), rat(cells["high_mhz"])})
		}
		file.Close()
	}
	return o
}

func rat(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return r
}

// words are the words of a table that mean an emission, for the oracle.
var words = map[Kind][]string{
	PhoneAnalog:  {"all", "phone"},
	PhoneDigital: {"all", "phone", "digital", "phone-digital"},
	PhoneSSB:     {"all", "phone", "phone-ssb"},
	Data:         {"all", "data", "digital"},
	CW:           {"all", "CW"},
}

func has(row oracleRow, kind Kind) bool {
	for word := range strings.SplitSeq(row.cells["emissions"], "|") {
		if slices.Contains(words[kind], word) {
			return true
		}
	}
	return false
}

// reach returns the edges of an emission in MHz.
func (o oracle) reach(q Query) (low, high *big.Rat) {
	half := big.NewRat(int64(q.Emission.NecessaryBandwidth), 2_000_000)
	center := big.NewRat(int64(q.Center), 1_000_000)
	return new(big.Rat).Sub(center, half), new(big.Rat).Add(center, half)
}

// covered is step 1 for one kind.
func (o oracle) covered(q Query, kind Kind) bool {
	return o.pieces(q, func(row oracleRow) bool {
		return row.cells["station"] == "" && has(row, kind) && (row.cells["max_width_hz"] == "" || rat(row.cells["max_width_hz"]).Cmp(big.NewRat(int64(q.Emission.NecessaryBandwidth), 1)) >= 0)
	})
}

// opened is step 2.
func (o oracle) opened(q Query) bool {
	name := q.Station.String()
	mine := func(row oracleRow) bool {
		return name != "" && (row.cells["station"] == name || row.cells["station"] == "repeater" && strings.HasPrefix(name, "repeater-"))
	}
	for _, row := range o.rows {
		if mine(row) && row.cells["transmit"] != "no" && row.cells["place"] == "" && o.ofClass(row, q.Class) {
			return o.pieces(q, mine)
		}
	}
	return true
}

func (o oracle) ofClass(row oracleRow, class Class) bool {
	return row.cells["classes"] == "" || class == "" && row.cells["transmit"] != "no" || slices.Contains(strings.Split(row.cells["classes"], "|"), string(class)) && class != ""
}

// pieces tells whether each piece of the emission between two edges of rows lies in a row
// that may be used.
func (o oracle) pieces(q Query, use func(oracleRow) bool) bool {
	low, high := o.reach(q)
	cuts := []*big.Rat{low, high}
	for _, row := range o.rows {
		for _, cut := range []*big.Rat{row.low, row.high} {
			if cut.Cmp(low) > 0 && cut.Cmp(high) < 0 {
				cuts = append(cuts, cut)
			}
		}
	}
	sort.Slice(cuts, func(i, j int) bool { return cuts[i].Cmp(cuts[j]) < 0 })
	for i := 1; i < len(cuts); i++ {
		middle := new(big.Rat).Mul(new(big.Rat).Add(cuts[i-1], cuts[i]), big.NewRat(1, 2))
		if !slices.ContainsFunc(o.rows, func(row oracleRow) bool {
			return row.cells["transmit"] != "no" && row.cells["place"] == "" && o.ofClass(row, q.Class) && use(row) && row.low.Cmp(middle) <= 0 && middle.Cmp(row.high) <= 0
		}) {
			return false
		}
	}
	return true
}

// barred is step 3.
func (o oracle) barred(q Query) bool {
	low, high := o.reach(q)
	name := q.Station.String()
	for _, row := range o.rows {
		station := row.cells["station"] == "" || row.cells["station"] == name || row.cells["station"] == "repeater" && strings.HasPrefix(name, "repeater-")
		emission := false
		for kind := range words {
			emission = emission || q.Emission.Kind&kind != 0 && has(row, kind)
		}
		if row.cells["transmit"] == "no" && row.cells["place"] == "" && station && emission && o.ofClass(row, q.Class) && row.low.Cmp(high) < 0 && low.Cmp(row.high) < 0 {
			return true
		}
	}
	return false
}

// compare asks both, and wants the same answer to each step.
func (o oracle) compare(t testing.TB, tables *Tables, q Query) {
	t.Helper()
	covered := true
	for kind := range q.Emission.Kind.each() {
		covered = covered && o.covered(q, kind)
	}
	v := tables.Transmit(q)
	var step1, step2, step3 bool
	for _, reason := range reasons(v) {
		step1 = step1 || reason <= TooWide
		step2 = step2 || reason == StationBarred
		step3 = step3 || reason == StationBarred || reason == OtherService || reason == NotAmateur
	}
	barred, opened := o.barred(q), o.opened(q)
	if step1 == covered || step3 != (barred || covered && !opened) {
		t.Fatalf("%s %+v: %v %v; brute force says covered %v, opened %v, barred %v", tables.Code, q, v.Outcome, reasons(v), covered, opened, barred)
	}
	if v.Nearest != 0 {
		near := q
		near.Center = v.Nearest
		for kind := range q.Emission.Kind.each() {
			if !o.covered(near, kind) || !o.opened(near) || o.barred(near) {
				t.Fatalf("%s %+v: the nearest, %s, is no better", tables.Code, q, v.Nearest)
			}
		}
	}
	if (v.Rows != nil) != covered {
		t.Fatalf("%s %+v: rows %v, covered %v", tables.Code, q, v.Rows, covered)
	}
}

// Any transmission is judged as brute force judges it.
func TestTransmitAgainstBruteForce(t *testing.T) {
	codes := []string{"US", "US-R1", "US-R3", "CA", "GB", "DE", "AU", "ITU-R1", "ITU-R2", "ITU-R3"}
	oracles := map[string]oracle{}
	edges := map[string][]signal.Hertz{}
	for _, code := range codes {
		oracles[code] = newOracle(t, code)
		for _, row := range region(t, code).Rows() {
			edges[code] = append(edges[code], row.Low, row.High)
		}
	}
	rapid.Check(t, func(r *rapid.T) {
		code := rapid.SampledFrom(codes).Draw(r, "region")
		tables := region(t, code)
		q := Query{
			Emission: Emission{
				NecessaryBandwidth: signal.Hertz(rapid.OneOf(rapid.Int64Range(1, 30_000), rapid.Int64Range(1, 10_000_000)).Draw(r, "width")),
				Kind:               rapid.SampledFrom([]Kind{PhoneAnalog, PhoneDigital, PhoneSSB, Data, CW, PhoneDigital | Data}).Draw(r, "kind"),
			},
			Class:   rapid.SampledFrom(append(tables.Classes(), "")).Draw(r, "class"),
			Station: rapid.SampledFrom([]Station{Member, RepeaterInput, RepeaterOutput, Auxiliary, Beacon}).Draw(r, "station"),
		}
		edge := rapid.SampledFrom(edges[code]).Draw(r, "edge")
		side := rapid.SampledFrom([]signal.Hertz{-1, 0, 1}).Draw(r, "side") * q.Emission.NecessaryBandwidth / 2
		q.Center = max(1, edge+side+signal.Hertz(rapid.Int64Range(-20_000, 20_000).Draw(r, "off")))
		oracles[code].compare(t, tables, q)
	})
}
