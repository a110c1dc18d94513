package report

import (
	_ "embed"
	"io"

	"passband.example/plandiff/card"
	"passband.example/review/markup"
)

//go:embed card.css
var cardStyle string

// perSheet is how many cards stand on a sheet, in two columns. Four of 97 mm by 130 mm
// fit both A4 and Letter, with room for what a printer cannot reach.
const perSheet = 4

// A face is one side of a card.
type face struct {
	Title, Of string
	Warning   string
	Rows      []faceRow
	Entries   []faceEntry
	Foot      string
	From      string
}

type faceRow struct {
	card.Row
	No, Label, Opens string
}

// faceEntry is what the back says of a channel, or of the card.
type faceEntry struct{ Head, Text string }

// HTML writes the cards as a page to print on both sides of A4 or Letter, turned over
// on the long edge. Each sheet of fronts is followed by that of their backs, whose
// columns are exchanged so that they come to lie behind their fronts. The page has no
// script and fetches nothing, and its content security policy forbids both.
func (s *Cards) HTML(w io.Writer) error {
	var fronts, backs []*face
	for _, c := range s.cards {
		f := s.fold(c)
		fronts, backs = append(fronts, f.fronts...), append(backs, f.backs...)
	}
	return markup.Write(w, s.page(sheets(fronts, backs)))
}

// sheets lays fronts and backs out. A place without a card is nil.
func sheets(fronts, backs []*face) [][]*face {
	var all [][]*face
	for i := 0; i < len(fronts); i += perSheet {
		front, back := make([]*face, perSheet), make([]*face, perSheet)
		for j := range min(perSheet, len(fronts)-i) {
			front[j], back[j^1] = fronts[i+j], backs[i+j]
		}
		all = append(all, front, back)
	}
	return all
}

func (s *Cards) planName() string { return s.d.Expansion.Plan.Header.Title.Or("the plan") }

// from names the plan and its revision.
func (s *Cards) from() string {
	name := s.planName() + ", "
	for _, span := range s.d.New.Line() {
		name += span.Text
	}
	return Visible(name)
}
