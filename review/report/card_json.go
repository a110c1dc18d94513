package report

import (
	"io"

	"passband.example/plandiff/card"
	"passband.example/plandiff/plan"
)

// CardsForm is the JSON form of Cards.
type CardsForm struct {
	Passband string     `json:"passband"`
	Version  int        `json:"version"`
	Plan     string     `json:"plan"`
	At       *Origin    `json:"at"`
	Blocks   bool       `json:"blocks"`
	Cards    []CardForm `json:"cards"`
	Caution  string     `json:"caution"`
}

// CardForm is one card. Stops says in words what of it must not be used.
type CardForm struct {
	Zone    string        `json:"zone"`
	Label   string        `json:"label"`
	Radio   string        `json:"radio,omitempty"`
	Beyond  string        `json:"beyond,omitempty"`
	Stops   []string      `json:"stops,omitempty"`
	Rows    []CardRowForm `json:"rows"`
	LeftOut []LeftOutForm `json:"left_out"`
}

// CardRowForm is one channel of a card. Beyond says why the radio has no room for it,
// Because what makes it a channel that never transmits.
type CardRowForm struct {
	Number  int         `json:"number"`
	Channel string      `json:"channel"`
	Label   string      `json:"label"`
	Hears   string      `json:"hears"`
	Sends   string      `json:"sends"`
	Split   string      `json:"split,omitempty"`
	Opens   string      `json:"opens,omitempty"`
	When    string      `json:"when,omitempty"`
	Kind    string      `json:"kind"`
	Blocks  bool        `json:"blocks,omitempty"`
	Beyond  string      `json:"beyond,omitempty"`
	Because string      `json:"listens_because,omitempty"`
	At      *plan.Place `json:"at,omitempty"`
}

// JSON writes the cards for programs.
func (s *Cards) JSON(w io.Writer) error {
	out := CardsForm{
		Passband: "card", Version: version, Plan: s.d.Expansion.Plan.Header.Title.Or(""), At: s.d.New,
		Blocks: s.d.Verdict.Blocks(), Cards: make([]CardForm, len(s.cards)), Caution: listenFirst + " " + caution,
	}
	for i, c := range s.cards {
		out.Cards[i] = s.form(c)
	}
	return WriteJSON(w, out)
}

func (s *Cards) form(c *card.Card) CardForm {
	f := CardForm{
		Zone: c.Zone.Key.V, Label: c.Zone.Called(), Beyond: c.Beyond, Stops: s.stops(c),
		Rows: make([]CardRowForm, len(c.Rows)), LeftOut: make([]LeftOutForm, len(c.LeftOut)),
	}
	if c.Radio != nil {
		f.Radio = c.Radio.Key.V
	}
	for i, r := range c.Rows {
		row := CardRowForm{
			Number: r.Number, Channel: r.Channel.Name, Label: r.Label, Hears: r.Hears(), Sends: r.Sends(), Split: r.Split(),
			Opens: r.Opens(), When: r.Channel.When, Kind: r.Kind(), Blocks: s.blocked(c, r), Beyond: r.Beyond,
		}
		if key, at := r.ListensBecause(); key != "" {
			row.Because, row.At = key, &at
		}
		f.Rows[i] = row
	}
	for i, l := range c.LeftOut {
		f.LeftOut[i] = LeftOutForm{Channel: l.Channel.Name, Why: l.Why}
	}
	return f
}
