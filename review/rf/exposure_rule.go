package rf

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"passband.example/plandiff/signal"
)

//go:embed data/exposure.csv
var exposureCSV string

// A limitRow is one line of the table of exposure limits.
type limitRow struct {
	rule, group           string
	lowMHz, highMHz       float64
	coefficient, exponent float64 // W/m2 at a frequency in MHz
	averageMin            float64
	source, confidence    string
}

var limitRows = sync.OnceValue(func() []limitRow {
	reader := csv.NewReader(strings.NewReader(exposureCSV))
	reader.Comment = '#'
	records, err := reader.ReadAll()
	if err != nil {
		panic("rf: embedded table: " + err.Error()) // only a broken build can reach this
	}
	var rows []limitRow
	for _, r := range records[1:] {
		var n [5]float64
		for i := range n {
			if n[i], err = strconv.ParseFloat(r[2+i], 64); err != nil {
				panic("rf: embedded table: " + err.Error())
			}
		}
		rows = append(rows, limitRow{r[0], r[1], n[0], n[1], n[2], n[3], n[4], r[7], r[8]})
	}
	return rows
})

// Limit is how much power density a rule lets a group of people be exposed to.
type Limit struct {
	WattsPerM2 float64
	AverageMin float64 // averaged over so many minutes
	Source     string
	Confidence string // read; memory: say so beside the figure
}

// Public and Occupational are the two groups that rules set limits for. Neighbors and visitors are the
// public; occupational is for those who know of the exposure and control it.
const (
	Public       = "public"
	Occupational = "occupational"
)

// ExposureRules are the names of the rules that are known: US (47 CFR 1.1310), and ICNIRP-1998 for a
// plan that names it. There is no default: what counts elsewhere is the country's law.
func ExposureRules() []string {
	var names []string
	for _, r := range limitRows() {
		if !slices.Contains(names, r.rule) {
			names = append(names, r.rule)
		}
	}
	return names
}

// ExposureLimit returns the limit of a rule for a group at a frequency. An unknown rule, and a frequency
// outside its rows, is an error.
func ExposureLimit(rule, group string, f signal.Hertz) (Limit, error) {
	if !slices.Contains(ExposureRules(), rule) {
		return Limit{}, fmt.Errorf("no exposure limits are known here for %.40q, only for %s; the law there counts all the same, so look its limits up",
			rule, strings.Join(ExposureRules(), " and "))
	}
	at := mhz(f)
	for _, r := range limitRows() {
		if r.rule == rule && r.group == group && at >= r.lowMHz && at <= r.highMHz {
			return Limit{r.coefficient * math.Pow(at, r.exponent), r.averageMin, r.source, r.confidence}, nil
		}
	}
	return Limit{}, fmt.Errorf("the exposure limits of %s that are known here say nothing for %s (%.40q); look them up", rule, f, group)
}
