package tables

import (
	_ "embed"
	"strings"

	"passband.example/plandiff/plan"
)

//go:embed doc.go
var docSource string

// Manual gives the documentation of this package, which describes a layout, as Go writes
// it: paragraphs, headings that begin with #, and examples that are indented; behind it
// the values of all rows.
func Manual() string {
	var b strings.Builder
	b.WriteString(plan.PackageComment(docSource))
	for _, s := range sources() {
		b.WriteString("\n# Rows: " + s.name + "\n\n" + strings.ToUpper(s.doc[:1]) + s.doc[1:] + ".\n\n")
		for _, v := range s.values {
			mark := ""
			if v.many {
				mark = " (a list)"
			}
			b.WriteString("\t" + v.name + strings.Repeat(" ", max(1, 24-len(v.name))) + v.doc + mark + "\n")
		}
	}
	return b.String()
}
