package plan

import (
	_ "embed"
	"strings"
)

//go:embed doc.go
var docSource string

// Manual gives the documentation of this package, which describes the form of a
// plan, as Go writes it: paragraphs, headings that begin with #, and examples that
// are indented.
func Manual() string { return PackageComment(docSource) }

// PackageComment gives the comment with which a Go source file begins, as Go writes it. The
// manuals of plans and of layouts are such comments, so that each is one text.
func PackageComment(source string) string {
	var b strings.Builder
	for line := range strings.Lines(source) {
		text, ok := strings.CutPrefix(line, "//")
		if !ok {
			break
		}
		b.WriteString(strings.TrimPrefix(text, " "))
	}
	return b.String()
}
