package report

import (
	"io"

	"passband.example/plandiff/plan"
)

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
		out.Radios = append(out.Radios, radioForm(f))
	}
	return WriteJSON(w, out)
}

func radioForm(f *plan.Fit) RadioForm {
	r := RadioForm{Key: f.Radio.Key.V, Label: f.Radio.Called(), Uses: []UseForm{}, LeftOut: []LeftOutForm{}}
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
	return r
}
