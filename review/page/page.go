package page

import (
	"io"

	"passband.example/plandiff/plan"
	"passband.example/review/markup"
	"passband.example/review/report"
	"passband.example/review/survey"
)

// How much of a large plan stands in the page; what is left out is counted there.
const (
	MostRows     = 500   // channels in the table for readers without a script
	MostFindings = 500   // findings, the gravest first
	MostCauses   = 400   // records that were edited
	MostEffects  = 60    // channels under one of them
	MostMembers  = 1_500 // channels in all zones that are drawn
	MostStrips   = 36    // strips of spectrum
	MostMapped   = 1_200 // repeaters that are drawn one by one
	MostListed   = 250   // rows of the table beside a picture
)

// A view is what the page shows.
type view struct {
	Title    string
	Document *report.Document

	Glance   glance
	Changes  *changes // nil where nothing was compared
	Findings *findings
	Zones    *zones
	Radios   []radio
	Bands    *spectrum
	Map      *chart
	Channels *channels
}

// Write writes the page of a document, whose verdict must be there. The same document
// gives the same bytes.
func Write(w io.Writer, d *report.Document) error {
	return markup.Write(w, viewOf(d).html())
}

func viewOf(d *report.Document) *view {
	s := sidesOf(d)
	v := &view{Title: titleOf(d), Document: d}
	v.Changes = s.changes()
	v.Findings = s.findings()
	v.Zones = s.zones()
	v.Radios = s.radios()
	v.Bands = s.spectrum()
	v.Map = s.chart()
	v.Channels = s.channels()
	v.Glance = s.glance()
	return v
}

func titleOf(d *report.Document) string {
	name := d.Expansion.Plan.Header.Title.Or("")
	if name == "" {
		name = "A channel plan"
	}
	return name
}

// sides are the plan, the one before it where two are compared, and what became of each channel.
type sides struct {
	*report.Document
	old, new *plan.Expansion // old is nil where nothing was compared

	judged *plan.Plan // the new plan under the license rows and separations of the old one
	survey *survey.Survey

	changed map[string]*fate  // by the name of a channel now, or of one that is gone
	nowName map[string]string // the name now of a channel that had another
}

func (s *sides) compared() bool { return s.old != nil }
