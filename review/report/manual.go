package report

import (
	"go/doc/comment"
	"io"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/tables"
)

// Manual reports the form of a plan: what may stand in its files, and what it means.
func Manual() *Page { return manual("The form of a plan", plan.Manual()) }

// LayoutManual reports the form of a layout: what the columns of tables may show.
func LayoutManual() *Page { return manual("The layout of tables", tables.Manual()) }

// manual reports the documentation of a package.
func manual(title, documentation string) *Page {
	p := new(Page)
	p.heading(1, text("%s", title))
	for _, b := range new(comment.Parser).Parse(documentation).Content {
		switch b := b.(type) {
		case *comment.Heading:
			p.heading(2, text("%s", plainWords(b.Text)))
		case *comment.Paragraph:
			p.paragraph(text("%s", plainWords(b.Text)))
		case *comment.Code:
			p.fence("yaml", b.Text)
		case *comment.List:
			for _, point := range b.Items {
				for _, c := range point.Content {
					if para, ok := c.(*comment.Paragraph); ok {
						p.item(0, text("%s", plainWords(para.Text)))
					}
				}
			}
		}
	}
	return p
}

// words gives the text of a comment on one line.
func plainWords(parts []comment.Text) string {
	var b strings.Builder
	for _, part := range parts {
		switch part := part.(type) {
		case comment.Plain:
			b.WriteString(string(part))
		case comment.Italic:
			b.WriteString(string(part))
		case *comment.Link:
			b.WriteString(plainWords(part.Text))
		case *comment.DocLink:
			b.WriteString(plainWords(part.Text))
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// ManualForm is the JSON form of Manual.
type ManualForm struct {
	Passband string `json:"passband"`
	Version  int    `json:"version"`
	Text     string `json:"text"`
}

// ManualJSON writes the form of a plan for programs, as one text.
func ManualJSON(w io.Writer) error {
	return WriteJSON(w, ManualForm{Passband: "manual", Version: version, Text: plan.Manual()})
}

// LayoutManualJSON writes the form of a layout for programs, as one text.
func LayoutManualJSON(w io.Writer) error {
	return WriteJSON(w, ManualForm{Passband: "manual", Version: version, Text: tables.Manual()})
}
