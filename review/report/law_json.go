package report

import (
	"io"

	"passband.example/plandiff/signal"
	"passband.example/review/license"
)

// LawForm is the JSON form of Law.
type LawForm struct {
	Passband  string        `json:"passband"`
	Version   int           `json:"version"`
	Frequency string        `json:"frequency"`
	Region    string        `json:"region"`
	Class     string        `json:"class,omitempty"`
	Fallback  string        `json:"fallback,omitempty"`
	May       []MayForm     `json:"may"`
	Rows      []LawRowForm  `json:"rows"`
	Segments  []SegmentForm `json:"segments"`
	Splits    []SplitForm   `json:"splits"`
	Services  []ServiceForm `json:"services"`
	Caution   string        `json:"caution"`
}

// MayForm says whether a signal of a kind of station is allowed there.
type MayForm struct {
	Signal     string   `json:"signal"`
	Designator string   `json:"designator"`
	WidthHz    int64    `json:"width_hz"`
	By         string   `json:"by"`
	Outcome    string   `json:"outcome"`
	Reasons    []string `json:"reasons"`
	FromMemory bool     `json:"from_memory"`
	Low        string   `json:"closest_low,omitempty"`
	High       string   `json:"closest_high,omitempty"`
}

// RestsForm says where a row is from.
type RestsForm struct {
	Source     string `json:"source"`
	Edition    string `json:"edition"`
	Confidence string `json:"confidence"`
	Note       string `json:"note,omitempty"`
	File       string `json:"file"`
	Line       int    `json:"line"`
	Club       bool   `json:"club,omitempty"`
}

// LawRowForm is a right or a bar.
type LawRowForm struct {
	Classes   []string  `json:"classes"`
	Service   string    `json:"service"`
	Station   string    `json:"station,omitempty"`
	Place     string    `json:"place,omitempty"`
	Low       string    `json:"low"`
	High      string    `json:"high"`
	Right     string    `json:"right"`
	Emissions string    `json:"emissions"`
	WidthHz   int64     `json:"max_width_hz,omitempty"`
	Power     string    `json:"max_power,omitempty"`
	Condition string    `json:"condition,omitempty"`
	Rests     RestsForm `json:"rests_on"`
}

// SegmentForm is a segment of a band plan.
type SegmentForm struct {
	Plan       string    `json:"plan"`
	Low        string    `json:"low"`
	High       string    `json:"high"`
	Use        string    `json:"use"`
	Force      string    `json:"force"`
	Superseded bool      `json:"superseded,omitempty"`
	StepsHz    []int64   `json:"steps_hz"`
	Rests      RestsForm `json:"rests_on"`
}

// SplitForm is a usual split.
type SplitForm struct {
	Split string    `json:"split"`
	Input string    `json:"input"`
	Rests RestsForm `json:"rests_on"`
}

// ServiceForm is a channel of another service.
type ServiceForm struct {
	Service  string    `json:"service"`
	Name     string    `json:"name"`
	Receive  string    `json:"receive"`
	Transmit string    `json:"transmit,omitempty"`
	Who      string    `json:"who"`
	Rests    RestsForm `json:"rests_on"`
}

// LawJSON writes the answer to a question for programs.
func LawJSON(w io.Writer, q LawQuestion) error {
	out := LawForm{
		Passband: "law", Version: version, Frequency: q.Frequency.String(), Region: q.Tables.Code, Class: string(q.Class),
		Fallback: q.Tables.Fallback(), Rows: []LawRowForm{}, Segments: []SegmentForm{}, Splits: []SplitForm{}, Services: []ServiceForm{}, Caution: caution,
	}
	for _, s := range signals() {
		for _, by := range stations() {
			out.May = append(out.May, q.mayJSON(s.name, by.name, q.query(s.emission, by.station)))
		}
	}
	l := q.Tables.At(q.Frequency)
	for _, r := range l.Rows {
		out.Rows = append(out.Rows, lawRowJSON(r))
	}
	for _, s := range l.Segments {
		f := SegmentForm{Plan: s.Plan, Low: s.Low.String(), High: s.High.String(), Use: s.Use, Force: s.Force.String(), Superseded: s.Superseded, StepsHz: []int64{}, Rests: restsJSON(s.Provenance)}
		for _, step := range s.Rasters {
			f.StepsHz = append(f.StepsHz, int64(step))
		}
		out.Segments = append(out.Segments, f)
	}
	for _, s := range l.Splits {
		out.Splits = append(out.Splits, SplitForm{s.Split.String(), (q.Frequency + signal.Hertz(s.Split)).String(), restsJSON(s.Provenance)})
	}
	for _, s := range l.Services {
		f := ServiceForm{Service: s.Service, Name: s.Name, Receive: s.Receive.String(), Who: s.Who, Rests: restsJSON(s.Provenance)}
		if s.Transmit != 0 {
			f.Transmit = s.Transmit.String()
		}
		out.Services = append(out.Services, f)
	}
	return WriteJSON(w, out)
}

func (q LawQuestion) mayJSON(name, by string, query license.Query) MayForm {
	v := q.Tables.Transmit(query)
	m := MayForm{
		Signal: name, Designator: query.Emission.Designator, WidthHz: int64(query.Emission.NecessaryBandwidth), By: by,
		Outcome: v.Outcome.String(), Reasons: []string{}, FromMemory: v.FromMemory,
	}
	for _, o := range v.Objections {
		m.Reasons = append(m.Reasons, o.Reason.String())
	}
	if low, high, ok := q.Tables.Closest(query); ok {
		m.Low, m.High = low.String(), high.String()
	}
	return m
}

func lawRowJSON(r *license.Row) LawRowForm {
	f := LawRowForm{
		Classes: []string{}, Service: r.Service, Station: r.Station.String(), Place: r.Place, Low: r.Low.String(), High: r.High.String(),
		Right: r.Right.String(), Emissions: r.Emissions.String(), WidthHz: int64(r.MaxWidth), Power: r.Limit(), Condition: r.Condition, Rests: restsJSON(r.Provenance),
	}
	for _, c := range r.Classes {
		f.Classes = append(f.Classes, string(c))
	}
	f.Rests.Club = r.Jurisdiction == license.Club
	return f
}

func restsJSON(p license.Provenance) RestsForm {
	return RestsForm{Source: p.Source, Edition: p.Edition, Confidence: p.Confidence.String(), Note: p.Note, File: p.File, Line: p.Line}
}
