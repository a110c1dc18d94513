package report

import (
	"fmt"
	"io"

	"passband.example/review/license"
)

// LawTables reports which license tables there are, and how much of each was read.
func LawTables() (*Page, error) {
	all, err := lawTables()
	if err != nil {
		return nil, err
	}
	p := new(Page)
	p.heading(1, text("License tables"))
	t := table{head: []string{"region", "table", "license rows", "band plans", "splits", "other services"}, numbers: []bool{false, false, true, true, true, true}}
	for _, r := range all {
		t.rows = append(t.rows, []Span{
			code(r.Region), text("%s", holdsWords(r.Holds)),
			counted(r.Rows), counted(r.Segments), counted(r.Splits), counted(r.Services),
		})
	}
	p.table(t)
	p.paragraph(text("Each number is read / read in part / from memory. Any other country of ISO 3166-1 has the limits of its ITU Region, which a country may narrow."))
	p.paragraph(code("passband law FREQUENCY --region R"), text(" shows what holds at a frequency."))
	p.paragraph(faint("%s", caution))
	return p, nil
}

func holdsWords(holds string) string {
	switch holds {
	case license.OwnTable.String():
		return "whole"
	case license.PartTable.String():
		return "in part"
	}
	return "ITU limits"
}

func counted(c CountForm) Span { return text("%d / %d / %d", c.Read, c.Part, c.Memory) }

// CountForm is how many rows of a table were read, read in part, and are from memory.
type CountForm struct {
	Read   int `json:"read"`
	Part   int `json:"part"`
	Memory int `json:"memory"`
}

// LawTableForm is how much is known of a region.
type LawTableForm struct {
	Region    string    `json:"region"`
	Name      string    `json:"name"`
	Authority string    `json:"authority,omitempty"`
	Holds     string    `json:"holds"`
	Classes   []string  `json:"classes"`
	Rows      CountForm `json:"rows"`
	Segments  CountForm `json:"segments"`
	Splits    CountForm `json:"splits"`
	Services  CountForm `json:"services"`
}

// LawTablesForm is the JSON form of LawTables.
type LawTablesForm struct {
	Passband string         `json:"passband"`
	Version  int            `json:"version"`
	Tables   []LawTableForm `json:"tables"`
	Caution  string         `json:"caution"`
}

// LawTablesJSON writes which tables there are for programs.
func LawTablesJSON(w io.Writer) error {
	all, err := lawTables()
	if err != nil {
		return err
	}
	return WriteJSON(w, LawTablesForm{Passband: "law-tables", Version: version, Tables: all, Caution: caution})
}

func lawTables() ([]LawTableForm, error) {
	regions, err := license.Regions()
	if err != nil {
		return nil, err
	}
	all := []LawTableForm{}
	for _, r := range regions {
		t, err := license.For(r.Code)
		if err != nil {
			return nil, fmt.Errorf("region %s: %w", r.Code, err)
		}
		c := t.Counts()
		f := LawTableForm{
			Region: t.Code, Name: t.Name, Authority: t.Authority, Holds: t.Holds.String(), Classes: []string{},
			Rows: CountForm(c.Rows), Segments: CountForm(c.Segments), Splits: CountForm(c.Splits), Services: CountForm(c.Services),
		}
		for _, class := range t.Classes() {
			f.Classes = append(f.Classes, string(class))
		}
		all = append(all, f)
	}
	return all, nil
}
