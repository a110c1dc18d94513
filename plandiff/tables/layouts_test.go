package tables

import (
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
)

// everything is a layout with a table for every kind of row, and in each the values that
// keep accepts.
func everything(tb testing.TB, keep func(s *source, v *value) bool) *Layout {
	tb.Helper()
	var text strings.Builder
	text.WriteString("layout: Everything\ntables:\n")
	for _, s := range sources() {
		var columns strings.Builder
		for _, v := range s.values {
			if !keep(s, v) {
				continue
			}
			join := ""
			if v.many {
				join = `, join: "¦¦"` // in no label of plantest
			}
			fmt.Fprintf(&columns, "      - {header: %q, value: %s%s}\n", v.name, v.name, join)
		}
		if columns.Len() > 0 {
			fmt.Fprintf(&text, "  - file: x-%s.csv\n    rows: %s\n    columns:\n%s", s.name, s.name, columns.String())
		}
	}
	return mustParse(tb, text.String())
}

func mustParse(tb testing.TB, text string) *Layout {
	tb.Helper()
	l, err := ParseLayout("our.layout", []byte(text))
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// whole keeps every value.
func whole(*source, *value) bool { return true }

// fieldsAlone keeps the records of the plan with their own fields.
func fieldsAlone(s *source, v *value) bool {
	if s.name == "channels" || s.name == "listening_lists" {
		return false
	}
	return v.name == "key" || plan.SectionOf(s.kind).Field(v.name) != nil
}
