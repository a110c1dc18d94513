package tables

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// TestCells writes a value as a column has it, and reads the cell back.
func TestCells(t *testing.T) {
	for _, c := range []struct {
		name, why string
		column    string // what a layout says of it, in rows of channels
		comma     bool
		texts     []string
		cell      string // "!" and a part of the error where it cannot be written
		back      []string
	}{
		{"decimals", "a fixed number of decimals, zeros too", "value: output, format: MHz 5", false, []string{"146.520"}, "146.52000", []string{"146.520"}},
		{"decimals kept", "as many as it needs, three at least", "value: output, format: MHz", false, []string{"446.00625"}, "446.00625", []string{"446.00625"}},
		{"never rounded", "446.00625 with 4 decimals would be another channel", "value: output, format: MHz 4", false, []string{"446.00625"}, "!more decimals than the 4", nil},
		{"kHz", "exact shift", "value: output, format: kHz 2", false, []string{"446.00625"}, "446006.25", []string{"446.00625"}},
		{"Hz", "exact shift", "value: output, format: Hz", false, []string{"9999.999999"}, "9999999999", []string{"9999.999999"}},
		{"below 1 MHz", "leading zeros come back", "value: output, format: Hz", false, []string{"0.100001"}, "100001", []string{"0.100001"}},
		{"decimal comma", "a number has one, a text does not", "value: output", true, []string{"146.520"}, "146,520", []string{"146.520"}},
		{"plus", "the sign of a split is data", "value: split", false, []string{"+5"}, "+5", []string{"+5"}},
		{"minus in kHz", "sign kept by the shift", "value: split, format: kHz 1", true, []string{"-0.6"}, "-600,0", []string{"-0.6000"}},
		{"simplex", "zero has no sign", "value: split, format: kHz", false, []string{"0"}, "0", []string{"0.000"}},
		{"guarded", "a label is text, whatever it looks like", "value: label", false, []string{"+5"}, "'+5", []string{"+5"}},
		{"formula", "OWASP", "value: label", false, []string{"=1+1"}, "'=1+1", []string{"=1+1"}},
		{"comma in a text", "only numbers have decimals", "value: label", true, []string{"1.25"}, "1.25", []string{"1.25"}},
		{"none", "a word where nothing is set", `value: tone.send, none: "off"`, false, nil, "off", nil},
		{"dash for none", "it works nothing out", `value: tone.send, none: "-"`, false, nil, "-", nil},
		{"bare DCS", "no D", "value: tone.send, format: 023N", false, []string{"D023I"}, "023I", []string{"D023I"}},
		{"bare CTCSS", "a tone in hertz is no code", "value: tone.send, format: 023N", false, []string{"103.5"}, "103.5", []string{"103.5"}},
		{"blank", "an empty cell means the value", "value: power, blank: high", false, []string{"high"}, "", []string{"high"}},
		{"map", "words both ways", "value: power, map: {low: Lo, high: Hi}", false, []string{"low"}, "Lo", []string{"low"}},
		{"not in map", "other values stay", "value: power, map: {low: Lo}", false, []string{"5"}, "5", []string{"5"}},
		{"list", "joined", `value: zones.label, join: "|"`, false, []string{"Home", "Travel"}, "Home|Travel", []string{"Home", "Travel"}},
		{"join inside", "two items would come back as three", `value: zones.label, join: "|"`, false, []string{"A|B", "C"}, `!holds "|"`, nil},
	} {
		column := mustParse(t, fmt.Sprintf("layout: x\ntables: [{file: a.csv, rows: channels, columns: [{header: H, %s}]}]", c.column)).Tables[0].Columns[0]
		cell, err := column.write(c.texts, c.comma)
		if part, bad := strings.CutPrefix(c.cell, "!"); bad {
			if err == nil || !strings.Contains(err.Error(), part) {
				t.Errorf("%s (%s): %q, %v; want an error with %q", c.name, c.why, cell, err, part)
			}
			continue
		}
		if err != nil || cell != c.cell {
			t.Errorf("%s (%s): %q, %v; want %q", c.name, c.why, cell, err, c.cell)
		}
		if back, err := column.read(cell, c.comma); err != nil || !slices.Equal(back, c.back) {
			t.Errorf("%s (%s): %q reads as %q, %v; want %q", c.name, c.why, cell, back, err, c.back)
		}
	}
}

// TestLetters names columns as spreadsheet programs do.
func TestLetters(t *testing.T) {
	for column, want := range map[int]string{1: "A", 26: "Z", 27: "AA", 52: "AZ", 53: "BA", 702: "ZZ", 703: "AAA"} {
		if got := Letters(column); got != want {
			t.Errorf("column %d is %s, want %s", column, got, want)
		}
	}
}

// TestLayoutErrors wants each mistake at its place, with what was meant.
func TestLayoutErrors(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"slip", "nearest word", "layout: x\ntabels: []", `x.layout:2:1: "tabels" is not a key of a layout; did you mean tables?`},
		{"no tables", "nothing to write", "layout: x", "x.layout:1:1: the layout has no tables"},
		{"no YAML", "the loader of plans explains it", "layout: [", "x.layout:1:"},
		{"no mapping", "a list is no layout", "- a", "this is no layout"},
		{"twice", "only one can be meant", "layout: x\nlayout: y", "was written before"},
		{"unknown source", "nearest word", "layout: x\ntables: [{file: a.csv, rows: zone, columns: []}]", "did you mean zones?"},
		{"unknown value", "nearest word", col("{header: A, value: colour_code}"), "did you mean color_code?"},
		{"nothing shown", "a column needs one of the two", col("{header: A}"), "this column shows nothing"},
		{"no header", "a reader finds columns by it", col("{value: label}"), "this column has no header"},
		{"format of a text", "only numbers have one", col("{header: A, value: label, format: MHz}"), "this value has no format"},
		{"map of a wrong value", "the parser of the plan reads it", col("{header: A, value: color_code, map: {16: x}}"), `color code "16" is above 15`},
		{"none in map", "it could not be read back", col("{header: A, value: power, none: Lo, map: {low: Lo}}"), "stands for a value and for none"},
		{"plan's file", "the plan would read it", "layout: x\ntables: [{file: operators.csv, rows: operators, columns: [{header: A, value: id}]}]", "a name that a plan's own files have"},
		{"outside", "a table stays in its folder", "layout: x\ntables: [{file: ../a.csv, rows: operators, columns: [{header: A, value: id}]}]", "cannot be the name of a table's file"},
		{"formula in map", "a layout is data too", col(`{header: A, value: power, map: {low: "=1+1"}}`), "would work out"},
		{"each without a column", "the rows would all be alike", "layout: x\ntables: [{file: a.csv, rows: zones, each: members, columns: [{header: A, value: key}]}]", "no column shows members"},
		{"each of none", "messages have no list", "layout: x\ntables: [{file: a.csv, rows: messages, each: text, columns: [{header: A, value: key}]}]", "messages have no list"},
	} {
		_, err := ParseLayout("x.layout", []byte(c.text))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s (%s): %v; want %q", c.name, c.why, err, c.want)
		}
	}
}

func col(column string) string {
	return "layout: x\ntables: [{file: a.csv, rows: channels, columns: [" + column + "]}]"
}
