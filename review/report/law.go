package report

import (
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// A LawQuestion asks what holds at a frequency.
type LawQuestion struct {
	Tables    *license.Tables
	Class     license.Class // empty: what all classes may together
	Frequency signal.Hertz
}

// signals are what a plan can say, as a person says them.
func signals() []struct {
	name     string
	emission license.Emission
} {
	return []struct {
		name     string
		emission license.Emission
	}{{"FM wide", license.FMWide()}, {"FM narrow", license.FMNarrow()}, {"DMR", license.DMRVoice()}}
}

// stations are the kinds of station that a plan speaks of.
func stations() []struct {
	name    string
	station license.Station
} {
	return []struct {
		name    string
		station license.Station
	}{{"member", license.Member}, {"repeater output", license.RepeaterOutput}, {"repeater input", license.RepeaterInput}}
}

// query asks about a signal of a station. Whose license a repeater's output is under is not known.
func (q LawQuestion) query(e license.Emission, s license.Station) license.Query {
	query := license.Query{Center: q.Frequency, Emission: e, Station: s, Class: q.Class}
	if s == license.RepeaterOutput {
		query.Class = ""
	}
	return query
}

// Law reports what the tables say about a frequency: what may be sent, by whom, from which
// section and edition, what band plans keep it for, and what else lives there.
func Law(q LawQuestion) *Page {
	p := new(Page)
	who := "any class of license"
	if q.Class != "" {
		who = q.Tables.ClassLabel(q.Class)
	}
	p.heading(1, strong(megahertz(q.Frequency)), text(" in %s, %s", q.Tables.Name, who))
	if fallback := q.Tables.Fallback(); fallback != "" {
		p.paragraph(text("%s.", sentence(fallback)))
	}
	q.may(p)
	l := q.Tables.At(q.Frequency)
	q.rights(p, l)
	q.plans(p, l)
	q.splits(p, l)
	q.services(p)
	p.paragraph(faint("%s Rows from memory are marked; they never block alone.", caution))
	return p
}

// may is the table of what may be sent there, and how near to the edges.
func (q LawQuestion) may(p *Page) {
	p.heading(2, text("What may be sent there"))
	t := table{head: []string{"signal", "by", "allowed", "closest carriers in MHz"}, numbers: make([]bool, 4)}
	for _, s := range signals() {
		for _, by := range stations() {
			query := q.query(s.emission, by.station)
			v := q.Tables.Transmit(query)
			closest := ""
			if low, high, ok := q.Tables.Closest(query); ok {
				closest = low.String() + " to " + high.String()
			}
			t.rows = append(t.rows, []Span{text("%s", s.name), text("%s", by.name), verdictSpan(v), text("%s", closest)})
		}
	}
	p.table(t)
}

// verdictSpan says a verdict in a few words.
func verdictSpan(v license.Verdict) Span {
	said := Span{"yes", Good}
	switch v.Outcome {
	case license.Denied:
		said = Span{"no", Blocks}
	case license.Doubtful:
		said = Span{"unclear", Warns}
	}
	var reasons []string
	for _, o := range v.Objections {
		reason := o.Reason.String()
		switch {
		case o.Place != "":
			reason = "not " + o.Place
		case o.Reason == license.NotAmateur && o.Rows[0].Emissions != license.Every:
			reason = "closed to such signals"
		}
		reasons = append(reasons, reason)
	}
	if len(reasons) > 0 {
		said.Text += ": " + strings.Join(reasons, ", ")
	}
	if v.FromMemory {
		said.Text += " (from memory)"
	}
	return said
}

func (q LawQuestion) rights(p *Page, l license.Listing) {
	p.heading(2, text("The law"))
	if !slices.ContainsFunc(l.Rows, func(r *license.Row) bool {
		return r.Right != license.No && r.Station == license.Member && r.Place == ""
	}) {
		p.paragraph(text("No row of the tables gives it to amateurs."))
	}
	for _, r := range l.Rows {
		p.item(0, text("%s to %s MHz: %s", r.Low, r.High, rightWords(q.Tables, r)))
		if r.Condition != "" {
			p.detail(0, "also", text("%s", r.Condition))
		}
		p.detail(0, "rests on", rests(r.Provenance, r.Jurisdiction == license.Club))
	}
}

// rightWords says what a row gives or takes, and to whom.
func rightWords(t *license.Tables, r *license.Row) string {
	who := "everybody"
	if len(r.Classes) > 0 {
		var labels []string
		for _, c := range r.Classes {
			labels = append(labels, t.ClassLabel(c))
		}
		who = strings.Join(labels, ", ")
	}
	what := strings.ReplaceAll(r.Emissions.String(), "|", ", ")
	if r.Emissions == license.Every {
		what = "any emission"
	}
	words := fmt.Sprintf("%s may send %s", who, what)
	switch {
	case r.Right == license.Yes && len(r.Classes) == 0 && r.Emissions == license.Every && r.Limit() != "":
		words = "for everybody and every emission" // a bound, and no right of its own
	case r.Right == license.No && r.Emissions == license.Every:
		words = "closed to " + who
	case r.Right == license.No:
		words = fmt.Sprintf("closed to %s for %s", who, what)
	case r.Right == license.Permit:
		words = fmt.Sprintf("%s may send %s with a permission of one's own, or in some countries only", who, what)
	case r.Station != license.Member:
		words += " inside the amateur bands"
	}
	if r.Service != "amateur" {
		words += ", since it belongs to " + r.Service
	}
	if s := r.Station.String(); s != "" {
		words += ", as a " + strings.ReplaceAll(s, "-", " ")
	}
	if place := t.Place(r.Place); place != nil {
		words += ", " + place.Label
	}
	if r.MaxWidth != 0 {
		words += fmt.Sprintf(", at most %s kHz wide", r.MaxWidth.KHz())
	}
	if limit := r.Limit(); limit != "" {
		words += ", at most " + limit
	}
	return words
}

// rests says where a row is from, how sure it is, and whose claim it is.
func rests(p license.Provenance, club bool) Span {
	if club {
		return text("the club's own claim: %s, %s line %d", p.Cite(), p.File, p.Line)
	}
	return text("%s, %s line %d", p.Cite(), p.File, p.Line)
}

func (q LawQuestion) plans(p *Page, l license.Listing) {
	p.heading(2, text("Band plans"))
	if len(l.Segments) == 0 {
		p.paragraph(text("No segment of a band plan is known there."))
	}
	for _, s := range l.Segments {
		words := fmt.Sprintf("%s, %s to %s MHz: %s", s.Plan, s.Low, s.High, s.Use)
		if s.Force == license.Law {
			words += ", which is law"
		}
		if s.Superseded {
			words += ", a former edition"
		}
		for i, step := range s.Rasters {
			words += map[bool]string{true: ", channels every ", false: " or "}[i == 0] + step.KHz() + " kHz"
		}
		p.item(0, text("%s", words))
		p.detail(0, "rests on", rests(s.Provenance, false))
	}
}

func (q LawQuestion) splits(p *Page, l license.Listing) {
	if len(l.Splits) == 0 {
		return
	}
	p.heading(2, text("Usual splits of an output there"))
	for _, s := range l.Splits {
		p.item(0, text("%s MHz, which makes the input %s MHz", s.Split, q.Frequency+signal.Hertz(s.Split)))
		p.detail(0, "rests on", rests(s.Provenance, false))
	}
}

func (q LawQuestion) services(p *Page) {
	found := q.Tables.Services(q.Frequency, license.FMWide().NecessaryBandwidth)
	if len(found) == 0 {
		return
	}
	p.heading(2, text("What else lives there, within the width of FM"))
	for _, s := range found {
		words := fmt.Sprintf("%s (%s), heard on %s MHz", s.Name, s.Service, s.Receive)
		if s.Transmit != 0 && s.Transmit != s.Receive {
			words += fmt.Sprintf(", sent on %s MHz", s.Transmit)
		}
		p.item(0, text("%s: %s", words, s.Who))
		p.detail(0, "rests on", rests(s.Provenance, false))
	}
}
