package report

import (
	"fmt"
	"io"
	"strings"

	"passband.example/plandiff/plan"
)

// Radios reports how full the memory of each class of radio is.
func Radios(d *Document) *Page {
	p := new(Page)
	d.title(p, "Radios")
	if len(d.Expansion.Fits) == 0 {
		p.paragraph(text("The plan has no classes of radio: write them in the section "), code("radios"), text("."))
	}
	for _, f := range d.Expansion.Fits {
		radio(p, f)
	}
	return p
}

func radio(p *Page, f *plan.Fit) {
	p.heading(2, strong(f.Radio.Called()), text(" "), faint("%s", f.Radio.Key.V))
	t := table{head: []string{"memory", "used", "limit", "full", "most in"}, numbers: []bool{false, true, true, true, false}}
	for _, u := range f.Uses {
		limit, full := Span{Text: "-"}, Span{Text: ""}
		if u.Most > 0 {
			limit = text("%d", u.Most)
			full = text("%d %%", 100*u.Used/u.Most)
			if u.Used > u.Most {
				full.Style = Blocks
			}
		}
		who := ""
		if u.Who.Kind != 0 {
			who = u.Who.String()
		}
		t.rows = append(t.rows, []Span{text("%s", strings.ReplaceAll(u.Limit.String(), "_", " ")), text("%d", u.Used), limit, full, code(who)})
	}
	p.table(t)
	leftOut(p, f)
}

// leftOut counts the channels that the radio cannot use, by reason.
func leftOut(p *Page, f *plan.Fit) {
	byWhy := make(map[string]int)
	var order []string
	for _, l := range f.LeftOut {
		if byWhy[l.Why] == 0 {
			order = append(order, l.Why)
		}
		byWhy[l.Why]++
	}
	const shown = 3
	for i, why := range order {
		if i == shown && len(order) > shown+1 {
			p.item(0, text("%d more reasons; --json lists every channel that is left out", len(order)-shown))
			return
		}
		p.item(0, text("%s of its zones left out: %s", count(byWhy[why], "channel"), why))
	}
}

// RadiosForm is the JSON form of Radios.
type RadiosForm struct {
	Passband string      `json:"passband"`
	Version  int         `json:"version"`
	Plan     string      `json:"plan"`
	At       *Origin     `json:"at"`
	Radios   []RadioForm `json:"radios"`
}

// RadioForm is what one class of radio holds.
type RadioForm struct {
	Key     string        `json:"key"`
	Label   string        `json:"label"`
	Uses    []UseForm     `json:"uses"`
	LeftOut []LeftOutForm `json:"left_out"`
}

// UseForm counts something against a limit; the limit is null where none is stated.
type UseForm struct {
	Limit string      `json:"limit"`
	Used  int         `json:"used"`
	Most  *int        `json:"most"`
	Who   *plan.Thing `json:"most_in,omitempty"`
}

// LeftOutForm is a channel that the radio cannot use.
type LeftOutForm struct {
	Channel string `json:"channel"`
	Why     string `json:"why"`
}

// RadiosJSON writes Radios for programs.
func RadiosJSON(w io.Writer, d *Document) error {
	out := RadiosForm{Passband: "radios", Version: version, Plan: d.Expansion.Plan.Header.Title.Or(""), At: d.New, Radios: []RadioForm{}}
	for _, f := range d.Expansion.Fits {
		r := RadioForm{Key: f.Radio.Key.V, Label: f.Radio.Called(), LeftOut: []LeftOutForm{}}
		for _, u := range f.Uses {
			use := UseForm{Limit: u.Limit.String(), Used: u.Used}
			if u.Most > 0 {
				use.Most = &u.Most
			}
			if u.Who.Kind != 0 {
				use.Who = &u.Who
			}
			r.Uses = append(r.Uses, use)
		}
		for _, l := range f.LeftOut {
			r.LeftOut = append(r.LeftOut, LeftOutForm{l.Channel.Name, l.Why})
		}
		out.Radios = append(out.Radios, r)
	}
	return WriteJSON(w, out)
}

// megahertz says a frequency.
func megahertz(f fmt.Stringer) string { return f.String() + " MHz" }
